"""Write held-out rendered pictures with their truth, for evaluation and calibration.

    python3 held_out.py FOLDER COUNT [SEED]

FOLDER/NNNN.pgm, and FOLDER/list.txt with one line a picture:
id file stitch_px row_px direction_deg 90 family/worked (pitches 0 where there is no fabric).
The seed differs from every seed of training, so no picture was trained on.
"""
import math
import os
import sys

import numpy
import torch

import patches
from fabric import Draw
from shade import photograph

SIDE = 416


def pitches(truth, side):
    """Mean pitches (px) and row direction (rad) from the lattice coordinates on the covered pixels."""
    half = side // 2
    u, v, mask = (truth[k].view(half, half).numpy() for k in ("u", "v", "mask"))
    yy, xx = numpy.nonzero(mask > 0.5)
    a = numpy.stack([2.0 * xx, 2.0 * yy, numpy.ones(len(xx))], 1)
    ku = numpy.linalg.lstsq(a, u[yy, xx], rcond=None)[0][:2]
    kv = numpy.linalg.lstsq(a, v[yy, xx], rcond=None)[0][:2]
    along = numpy.array([-kv[1], kv[0]]) / numpy.linalg.norm(kv)
    return 1 / abs(ku @ along), 1 / numpy.linalg.norm(kv), math.atan2(along[1], along[0])


def main(folder, count, seed):
    patches.SIZE, patches.CANVAS = SIDE, int(SIDE * patches.OVER)
    torch.set_num_threads(1)
    draw = Draw("cpu", 900000 + seed)
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, "list.txt"), "w") as listing, torch.no_grad():
        for n in range(count):
            family, worked, other = patches.kind_of(draw)
            scale, case = 11.0 * (70.0 / 11.0) ** draw.toss(), draw.toss()
            truth, stitch, row, direction, label = {}, 0.0, 0.0, 0.0, "nothing/none"
            if case < 0.15:
                x, _, _, pitch = patches.nothing(draw, 1)
            else:
                x, _, _, pitch = patches.render(draw, 1, family, scale, False, other, worked, truth=truth)
                stitch, row, direction = pitches(truth, SIDE)
                label = family + "/" + worked
            picture = photograph(draw, x, SIDE, pitch.clamp(8, 60))[0].numpy()
            turns = int(draw.toss() * 4)
            picture = numpy.ascontiguousarray(numpy.rot90(picture, turns))
            path = os.path.join(folder, "%04d.pgm" % n)
            with open(path, "wb") as f:
                f.write(b"P5\n%d %d\n255\n" % (SIDE, SIDE) + (picture * 255).round().astype(numpy.uint8).tobytes())
            hint = math.degrees(direction) + 8 * (2 * draw.toss() - 1)
            listing.write("%04d %s %.4f %.4f %.2f 90 %s\n" % (n, path, stitch, row, hint, label))
            listing.flush()


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 0)
