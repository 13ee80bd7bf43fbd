"""Random patches of fabric as the stitch network sees them: rows level, the root of stitch x row pitch PITCH pixels.

The program knows both pitches by then, to a few per cent, and cuts the patch out of a photo of finer or coarser
pixels; here it is drawn at one of several scales and resampled.
"""
import torch
import torch.nn.functional as F

import patches
from cover import cover
from network import FAMILIES
from shade import normalise, photograph, still

SIDE, PITCH = 192, 24.0
# Side of the drawn picture and how often: 12 to 28 pixels a stitch in the photo.
SIDES = {96: 0.06, 112: 0.08, 128: 0.12, 144: 0.14, 160: 0.16, 192: 0.24, 224: 0.20}
SHAPES = [((SIDE, SIDE), torch.float16), ((1, SIDE // 2, SIDE // 2), torch.uint8), ((), torch.int64), ((), torch.int64)]


def drawn_at(side):
    """Sets the size of the pictures that patches.render() draws."""
    patches.SIZE, patches.CANVAS = side, int(side * patches.OVER)


def resampled(draw, x, mask):
    """As the program cuts it: 3 % off in scale, once in twelve by the root of 2 (rows taken for half or double
    rows), once in ten upside down. x (b, s, s), mask (b, 1, s/2, s/2) to SIDE and half of it."""
    b, side = x.shape[0], x.shape[1]
    zoom = torch.exp(0.03 * draw.noise(b))
    slip = draw.uniform(b)
    zoom = torch.where(slip < 0.04, zoom * 1.41, torch.where(slip > 0.96, zoom * 0.71, zoom))
    way = torch.where(draw.uniform(b) < 0.1, -torch.ones_like(zoom), torch.ones_like(zoom))
    scale = (zoom * way).view(b, 1, 1, 1)
    fine = F.grid_sample(x[:, None], still(b, SIDE, x.device) * scale, padding_mode="reflection", align_corners=False)[:, 0]
    covered = F.grid_sample(mask, still(b, SIDE // 2, x.device) * scale, padding_mode="zeros", align_corners=False)
    return fine, (covered > 0.5).float()


def batch(draw, b, kind=None):
    """b patches of one kind: picture, fabric mask, family, worked (-1: not scored)."""
    family, worked, other = kind or patches.kind_of(draw)
    side = list(SIDES)[draw.choose(list(SIDES.values()))]
    drawn_at(side)
    disc = family not in ("stockinette", "other") and worked == "round" and draw.toss() < 0.25
    x, fields, mask, pitch = patches.render(draw, b, family, PITCH * side / SIDE, False, other,
                                            "disc" if disc else worked, level=True)
    x = photograph(draw, x, side, pitch)
    x, _, mask = cover(draw, x, fields, mask)
    x, mask = resampled(draw, x, mask)
    way = -1 if family in ("stockinette", "other") else (0 if worked == "flat" else 1)
    label = torch.full((b,), FAMILIES.index(family), device=draw.device, dtype=torch.long)
    return normalise(x), mask, label, torch.full_like(label, way)
