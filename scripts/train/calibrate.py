"""Figures and confidence of the recogniser on held-out pictures.

    recogniser_read MODELS FOLDER/list.txt > figures.txt      (built from tests/unit/recogniser)
    python3 calibrate.py figures.txt [more.txt ...]

Prints how many readings are right (both pitches within 15 %), the errors, the families, and the coefficients of
the logistic confidence (src/recogniser/confidence.cpp) fitted by Newton's method.
"""
import sys

import numpy

RIGHT = numpy.log(1.15)


def load(paths):
    rows = [line.split() for path in paths for line in open(path)]
    rows = [r for r in rows if len(r) >= 12]
    return [r[1] for r in rows], [r[9] for r in rows], numpy.array([[float(x) for x in r[2:9]] for r in rows])


def fit(x, y, ridge=0.02):
    b = numpy.zeros(x.shape[1])
    penalty = ridge * numpy.eye(x.shape[1])
    penalty[0, 0] = 0.0
    for _ in range(60):
        p = 1 / (1 + numpy.exp(-x @ b))
        gradient = x.T @ (p - y) + penalty @ b
        b -= numpy.linalg.solve((x * (p * (1 - p))[:, None]).T @ x + penalty, gradient)
    return b


def main(paths):
    labels, said, v = load(paths)
    fabric = numpy.array([not name.startswith("nothing") for name in labels])
    off = numpy.abs(numpy.log(numpy.maximum(v[:, :2], 1e-3))).max(1)
    right = fabric & (off < RIGHT)
    print("pictures %d, fabric %d, both pitches within 15 %%: %.3f, within 3 %%: %.3f of the fabric" % (
        len(v), fabric.sum(), right[fabric].mean(), (off[fabric] < numpy.log(1.03)).mean()))
    error = numpy.abs(v[right, :2] - 1)
    print("median error of right readings: stitch %.2f %%, row %.2f %%" % tuple(100 * numpy.median(error, 0)))
    for family in sorted({name.split("/")[0] for name in labels}):
        m = numpy.array([name.split("/")[0] == family for name in labels])
        named = numpy.mean([said[i] == family for i in numpy.flatnonzero(m)])
        print("  %-12s %3d  right %.2f  family %.2f" % (family, m.sum(), right[m].mean(), named))
    x = numpy.concatenate([numpy.ones((len(v), 1)), v[:, 3:6]], 1)
    b = fit(x, right.astype(float))
    print("offset, score, final score, rival score:", numpy.round(b, 2))
    confidence = 1 / (1 + numpy.exp(-x @ b)) * numpy.clip((v[:, 6] - 1) / 2, 0, 1)
    for low, high in ((0, .1), (.1, .5), (.5, .8), (.8, .9), (.9, .95), (.95, .98), (.98, 1.01)):
        m = (confidence >= low) & (confidence < high)
        if m.any():
            print("  confidence %.2f to %.2f: %3d pictures, said %.3f, right %.3f" % (
                low, min(high, 1), m.sum(), confidence[m].mean(), right[m].mean()))
    for least in (.5, .8, .9, .95):
        m = confidence >= least
        print("  answered from %.2f: %.3f of the fabric, wrong %.3f of the answers" % (
            least, (m & fabric).sum() / fabric.sum(), 1 - right[m].mean()))


if __name__ == "__main__":
    main(sys.argv[1:])
