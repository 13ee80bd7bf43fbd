"""Endless random training patches: fabric with its truth, on discs too, and traps that are no fabric."""
import math

import torch
import torch.nn.functional as F

from cover import cover
from fabric import DiscLayout, Layout, lay, radius_of, ratio_of, strands_of, weave
from network import FAMILIES
from recipes import SAMPLES, TEXTURED, WEIGHT
from shade import gaussian, look, normalise, photograph, still, tube
from splat import splat
from traps import things

SIZE, OVER = 192, 1.5
CANVAS = int(SIZE * OVER)


def albedo(draw, b, layout, patch, u, v):
    """Yarn colour per point: plain, striped by rows, or variegated along the yarn."""
    base = torch.exp(draw.between(-4.0, 0.0, b))
    rows = torch.floor(v).long() + layout.half_j + 1
    count = 2 * layout.half_j + 3
    wide = (1 + (draw.uniform(b, 1) * 4).floor())
    offset = (draw.uniform(b, 1) * 8).floor()
    band = ((torch.arange(count, device=u.device)[None] + offset) / wide).floor().long().clamp(0, count)
    colour = torch.exp(draw.noise(b, count + 1) * 0.9)
    stripes = torch.gather(torch.gather(colour, 1, band), 1, rows.clamp(0, count - 1))
    striped = (draw.uniform(b, 1) < 0.12).float()
    wave = torch.sin(u * draw.between(0.2, 1.6, b, 1) + rows * draw.between(0.5, 6.0, b, 1))
    varied = torch.exp(wave * draw.between(0.1, 0.6, b, 1))
    variegated = (draw.uniform(b, 1) < 0.12).float()
    heather = 1 + draw.noise(*u.shape) * draw.between(0.0, 0.18, b, 1)
    c = base[:, None] * (1 + striped * (stripes - 1)) * (1 + variegated * (varied - 1)) * heather
    return c.clamp(0.004, 1.2)


def hairs(draw, b, size, count=10, steps=70):
    """Stray fibres: thin curves above the fabric."""
    start = draw.uniform(b, count, 1, 2) * size
    heading = draw.uniform(b, count, 1) * 6.28
    t = torch.linspace(0, 1, steps, device=draw.device)[None, None]
    length, curl = draw.between(0.1, 0.7, b, count, 1) * size, draw.noise(b, count, 1) * 2.0
    angle = heading + curl * t + 0.8 * torch.sin(t * draw.between(2, 12, b, count, 1))
    step = torch.stack([torch.cos(angle), torch.sin(angle)], -1) * (length / steps)[..., None]
    xy = start + torch.cumsum(step, 2)
    shown = (draw.uniform(b, count, 1) < draw.uniform(b, 1, 1) ** 2) & (draw.uniform(b, 1, 1) < 0.4)
    r = torch.where(shown.expand(b, count, steps), draw.between(0.4, 1.0, b, count, 1).expand(b, count, steps), torch.zeros(1, device=draw.device))
    z = torch.full((b, count * steps, 1), 60.0, device=draw.device)
    return torch.cat([xy.reshape(b, -1, 2), z, r.reshape(b, -1, 1)], -1), angle.reshape(b, -1)


def edges(draw, layout, b):
    """Where the fabric ends: a function of the cell, and the same bounds for the truth mask."""
    cut = draw.uniform(b, 4) < 0.16
    strip = draw.uniform(b) < 0.06  # a piece of few rows, ending above and below
    cut = cut | torch.stack([strip & False, strip & False, strip, strip], 1)
    reach = torch.tensor([layout.half_i, layout.half_i, layout.half_j, layout.half_j], device=draw.device).float()
    at = torch.where(cut, reach * draw.between(0.05, 0.65, b, 4) * (1 - 0.55 * strip.float()[:, None]), torch.full((b, 4), 1e6, device=draw.device)).round()
    at = at * torch.tensor([-1.0, 1.0, -1.0, 1.0], device=draw.device)
    if isinstance(layout, DiscLayout):  # all round, from near the centre to the rim
        first = layout.middle + CANVAS / 2 - layout.origin[:, 1]
        at = torch.stack([at[:, 0] * 0 - 1e6, at[:, 1] * 0 + 1e6, torch.ceil((2.5 * layout.row_px - first) / layout.row_px),
                          torch.floor((layout.rim - first) / layout.row_px) - 1], 1)

    def inside(i, j):
        s = (b,) + (1,) * (i.dim() - 1)
        return ((i >= at[:, 0].view(s)) & (i <= at[:, 1].view(s)) & (j >= at[:, 2].view(s)) & (j <= at[:, 3].view(s))).float()

    def covered(u, v):
        return ((u >= at[:, 0:1] - 0.5) & (u <= at[:, 1:2] + 0.5) & (v >= at[:, 2:3]) & (v <= at[:, 3:4] + 1)).float()

    return inside, covered


def directions(draw, b, family, level):
    """Of the rows, radians; `level`: as far off as the program has measured them (1.5 degrees, not measured)."""
    if level:
        return draw.noise(b) * 0.026
    angle = torch.where(draw.uniform(b) < 0.6, draw.between(-0.15, 0.15, b), draw.between(-0.42, 0.42, b))
    if family == "net":
        angle = torch.where(draw.uniform(b) < 0.5, angle, draw.between(0.0, 6.28, b))
    return angle


def layout_of(draw, b, family, scale_px, turned, other, worked, disc, level):
    """Proportions, direction and unevenness of b pieces; `scale_px` is the root of stitch width x row height."""
    g = scale_px * OVER * draw.between(0.93, 1.07, b)
    ratio = ratio_of(draw, family, b)
    sw, rh = g / ratio.sqrt(), g * ratio.sqrt()
    angle = directions(draw, b, family, level)
    if turned:
        angle = angle + math.pi * (0.5 + (draw.uniform(b) < 0.5).float())
    half_i, half_j = int(0.72 * CANVAS / float(sw.min())) + 2, int(0.72 * CANVAS / float(rh.min())) + 2
    tidy = (draw.uniform(b) < 0.35).float()
    unevenness = draw.between(0.01, 0.04, b) * tidy + draw.between(0.03, 0.11, b) * (1 - tidy)
    paired = torch.zeros(b, device=draw.device)
    if worked == "round":
        lean = draw.between(0.0, 0.3, b) * torch.sign(draw.noise(b))
        free = draw.uniform(b) < 0.2
        rowshift = torch.where(free, draw.between(0.1, 0.6, b), draw.between(0.0, 0.05, b))
    else:
        lean = draw.noise(b) * 0.03
        rowshift = torch.where(draw.uniform(b) < 0.3, draw.between(0.05, 0.3, b), draw.between(0.0, 0.06, b))
        paired = draw.between(-0.09, 0.09, b) * (draw.uniform(b) < 0.5)
    if family in ("stockinette",) or (family == "other" and other in (0, 1, 3)):
        lean, rowshift = lean * 0.1, rowshift * 0.1
    bend = draw.uniform(b, 1) ** 1.2
    if not disc:
        return Layout(draw, sw, rh, angle, CANVAS, half_i, half_j, unevenness, rowshift, lean, bend, paired), tidy
    middle = CANVAS * torch.exp(draw.between(math.log(0.8), math.log(3.0), b)) + rh
    rim = middle + 0.5 * CANVAS * draw.between(0.2, 1.3, b)
    rowshift = draw.uniform(b) * 0.6  # increases move the stitches of a round against the one below
    return DiscLayout(draw, sw, rh, 0.3 * angle, CANVAS, half_i, half_j, unevenness, rowshift, lean, 0.5 * bend, paired,
                      middle=middle, rim=rim), tidy


def with_hairs(draw, points, tangent, arc, lum):
    """Adds stray fibres to the points of the yarn."""
    b = points.shape[0]
    extra, heading = hairs(draw, b, CANVAS)
    m = extra.shape[1]
    bright = lum.mean(1, keepdim=True) * draw.between(0.6, 3.0, b, 1)
    along = torch.stack([torch.cos(heading), torch.sin(heading), 0 * heading], -1)
    return (torch.cat([points, extra], 1), torch.cat([tangent, along], 1),
            torch.cat([arc, torch.zeros(b, m, device=draw.device)], 1), torch.cat([lum, bright.expand(b, m)], 1))


def unrolled(picture, layout):
    b, h, w = picture.shape
    at = layout.canvas_from_strip((still(b, w, picture.device).reshape(b, -1, 2) + 1) * w / 2)
    return F.grid_sample(picture[:, None], (at * 2 / w - 1).view(b, h, w, 2), padding_mode="border", align_corners=False)[:, 0]


def render(draw, b, family, scale_px, turned, other=0, worked="flat", truth=None, level=False):
    """One batch of a family (or of "net": cloth and nets, a trap) at about `scale_px` patch pixels a stitch; worked
    "disc": in rounds, unrolled about the centre; `level`: rows as good as level. Returns picture, fields, mask and the pitch in patch pixels."""
    disc, worked = worked == "disc", "round" if worked == "disc" else worked
    layout, tidy = layout_of(draw, b, family, scale_px, turned, other, worked, disc, level)
    sw, rh = layout.a.norm(dim=1).unbind(1)
    jitter = draw.between(0.3, 2.2, b, 1, 1) * (1 - 0.6 * tidy.view(b, 1, 1))
    rows, columns = 2 * layout.half_j + 1, 2 * layout.half_i + 1
    net = family == "net"
    strands = weave(draw, b, rows, columns) if net else strands_of(draw, family, worked, other, rows, columns, b, jitter)
    radius = radius_of(draw, family, sw)
    inside, covered = edges(draw, layout, b)
    points, patch, (tangent, arc, u, v) = lay(draw, layout, strands, radius, SAMPLES.get(family, 16), family, inside)
    lum = albedo(draw, b, layout, patch, u, v)
    style = look(draw, b, CANVAS)
    alike = lum.mean(1) * draw.between(0.8, 1.25, b)  # white on white, black on black
    style["table"] = torch.where(draw.uniform(b) < 0.15, alike, style["table"])
    if draw.toss() < 0.1:  # on a cloth, a mat, boards or print
        ground = things(draw, b, CANVAS, OVER)
        style["texture"] = ground / ground.mean((1, 2), keepdim=True)
    points, tangent, arc, lum = with_hairs(draw, points, tangent, arc, lum)
    patch = torch.arange(b, device=draw.device, dtype=torch.int32)[:, None].expand(b, points.shape[1])
    n = b * points.shape[1]
    index, depth = splat(points.reshape(n, 4), patch.reshape(n), b, CANVAS)
    picture, _ = tube(draw, index, depth, points.reshape(n, 4), tangent.reshape(n, 3), arc.reshape(n), lum.reshape(n), radius, CANVAS, style)
    picture = frizz(draw, picture, radius, style["velvet"])
    if disc:
        picture = unrolled(picture, layout)
    half = torch.arange(SIZE // 2, device=draw.device).float() * 2 * OVER + OVER
    grid = torch.stack([half[None, :].expand(SIZE // 2, -1), half[:, None].expand(-1, SIZE // 2)], -1).reshape(1, -1, 2)
    tu, tv = layout.lattice_from_canvas(grid.expand(b, -1, -1))
    mask = covered(tu, tv)
    if truth is not None:
        truth.update(u=tu, v=tv, mask=mask)
    tu, tv = tu * 2 * math.pi, tv * 2 * math.pi
    fields = torch.stack([torch.cos(tu), torch.sin(tu), torch.cos(tv), torch.sin(tv)], 1) * mask[:, None]
    if turned or net or scale_px < 9.0 or scale_px > 46.0:
        fields = fields * 0
    if net:
        mask = mask * 0
    side = SIZE // 2
    return picture, fields.view(b, 4, side, side), mask.view(b, 1, side, side), (sw * rh).sqrt() / OVER


def frizz(draw, picture, radius, velvet):
    """Halo of fibres or pile: fine random displacement, light that strays among the fibres, and a soft veil."""
    b, h, w = picture.shape
    amount = draw.between(0.0, 0.35, b) * (draw.uniform(b) < 0.4)
    amount = torch.where((velvet > 0) | (draw.uniform(b) < 0.16), draw.between(0.3, 0.9, b), amount)
    grid = still(b, w, picture.device)
    move = draw.noise(b, h, w, 2) * (amount * radius / w * 2).view(b, 1, 1, 1)
    out = F.grid_sample(picture[:, None], grid + move, padding_mode="reflection", align_corners=False)[:, 0]
    halo = (amount * draw.between(0.0, 0.7, b)).view(b, 1, 1)
    out = out * (1 - halo) + halo * gaussian(picture, round(0.5 * float(radius.mean()) + 0.5))
    streak = F.avg_pool2d(draw.noise(b, 1, h, w), (7, 1), 1, (3, 0)) + F.avg_pool2d(draw.noise(b, 1, h, w), (1, 7), 1, (0, 3))
    return out * (1 + 0.5 * amount.view(b, 1, 1) * streak[:, 0]).clamp_min(0.2)


def kind_of(draw):
    """Family, way of working and texture of the next sub-batch."""
    names = list(WEIGHT)
    family = names[draw.choose(list(WEIGHT.values()))]
    worked = "round" if draw.toss() < 0.45 else "flat"
    other = int(draw.toss() * TEXTURED)
    if family == "stockinette":
        other, worked = (1 if draw.toss() < 0.2 else 0), "round"
    return family, worked, other


def nothing(draw, b):
    """A trap: picture, fields, mask, pitch as of render()."""
    if draw.toss() < 0.2:
        return render(draw, b, "net", 8.0 * 6.0 ** draw.toss(), False)
    x = things(draw, b, CANVAS, OVER)
    x = frizz(draw, x, draw.between(2.0, 8.0, b), torch.zeros(b, device=draw.device))
    side = SIZE // 2
    return (x, torch.zeros(b, 4, side, side, device=draw.device), torch.zeros(b, 1, side, side, device=draw.device),
            torch.full((b,), 20.0, device=draw.device))


def beside(draw, x, fields, mask):
    """Something that is no fabric lies beside the fabric, or on a part of it."""
    b = x.shape[0]
    other = things(draw, b, CANVAS, OVER)
    tone = x.mean((1, 2), keepdim=True) / other.mean((1, 2), keepdim=True) * torch.exp(0.5 * draw.noise(b, 1, 1))
    angle = torch.where(draw.uniform(b) < 0.6, 0.1 * draw.noise(b) + 1.5708 * (4 * draw.uniform(b)).floor(), 6.2832 * draw.uniform(b))
    toward = torch.stack([torch.cos(angle), torch.sin(angle)], 1).view(b, 1, 1, 2)
    at = draw.between(-0.4, 0.8, b, 1, 1)

    def covers(side):
        return ((still(b, side, x.device) * toward).sum(-1) > at).float()

    on, off = covers(CANVAS), 1 - covers(SIZE // 2)[:, None]
    return x * (1 - on) + other * tone * on, fields * off, mask * off


def batch(draw, b):
    """b patches of one kind. Returns picture, fields, mask, family, worked (-1: not scored)."""
    case = draw.toss()
    family, worked, other = kind_of(draw)
    label, way = FAMILIES.index(family), (0 if worked == "flat" else 1)
    if family in ("stockinette", "other"):
        way = -1
    low, high = (15.0, 44.0) if family in ("dc", "tr") else (10.5, 42.0)
    scale = low * (high / low) ** draw.toss()
    if case < 0.18:
        x, fields, mask, pitch = nothing(draw, b)
        label, way = -1, -1
    elif case < 0.24:
        x, fields, mask, pitch = render(draw, b, family, scale, True, other, worked)
        label, way = -1, -1
    elif case < 0.29:
        scale = 5.0 + 3.0 * draw.toss() if draw.toss() < 0.4 else 52.0 * 2 ** draw.toss()
        x, fields, mask, pitch = render(draw, b, family, scale, draw.toss() < 0.2, other, worked)
        label, way = -1, -1
    elif case < 0.37 and family not in ("stockinette", "other"):
        x, fields, mask, pitch = render(draw, b, family, min(scale, 34.0), False, 0, "disc")
        way = 1
    else:
        x, fields, mask, pitch = render(draw, b, family, scale, False, other, worked)
    if draw.toss() < 0.07:
        x, fields, mask = beside(draw, x, fields, mask)
    x = photograph(draw, x, SIZE, pitch.clamp(8, 60))
    x, fields, mask = cover(draw, x, fields, mask)
    whole = torch.full((b,), label, device=draw.device, dtype=torch.long)
    return normalise(x), fields, mask, whole, torch.full_like(whole, way)
