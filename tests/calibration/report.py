#!/usr/bin/env python3
"""Report of calibrate's CSV: do the stated intervals hold, and what does the error depend on?

    report.py TRIALS.csv FOLDER VERSION     writes FOLDER/README.md and the plots beside it

Only Python's standard library is used. scripts/calibration-report.sh runs it.
"""
import collections
import csv
import math
import pathlib
import statistics
import sys

NORMAL_95 = 1.96
GAUGES = ["stitches_per_10cm", "rows_per_10cm"]
COUNTS = ["stitches", "rows", "rounds", "last_round_stitches"]
CONDITIONS = {"tilt_deg": "tilt of the camera, degrees", "lift_mm": "height of the yarn above the table, mm",
              "blur_px": "blur, px", "px_per_stitch": "distance: px a stitch", "stitches_in_view": "stitches of a row in view"}
KINDS = {"told": "swatch, stitch told", "not-told": "swatch, not told", "crown": "crown, stitch told"}


class Statement:
    """One stated quantity with its truth; `z`: error over the stated standard uncertainty."""

    def __init__(self, row):
        self.kind, self.quantity = row["kind"], row["quantity"]
        self.conditions = {name: float(row[name]) for name in CONDITIONS}
        self.truth, self.value, self.std = float(row["truth"]), float(row["value"]), float(row["std"])
        self.error = self.value / self.truth - 1.0
        self.z = (self.value - self.truth) / self.std if self.std > 0 else math.copysign(9.0, self.error) * (self.error != 0)
        self.budget = dict(part.split("=") for part in row["budget"].split(";") if part)

    def largest_part(self):
        return max(self.budget, key=lambda name: float(self.budget[name]), default="")


def read(path):
    statements, refused, photos = [], collections.defaultdict(collections.Counter), collections.defaultdict(set)
    with open(path, newline="") as file:
        for row in csv.DictReader(file):
            photos[row["kind"]].add(row["seed"])
            if row["truth"]:
                statements.append(Statement(row))
            else:
                refused[row["kind"]][row["quantity"]] += 1
    return statements, refused, photos


def quantile(values, part):
    values = sorted(values)
    return values[min(len(values) - 1, int(part * (len(values) - 1) + 0.5))]


def share(statements, limit):
    return sum(abs(s.z) <= limit for s in statements) / len(statements)


def wilson(held, n):
    """95 % interval of a proportion (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927)."""
    p, z = held / n, NORMAL_95
    middle, half = p + z * z / (2 * n), z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    return (middle - half) / (1 + z * z / n), (middle + half) / (1 + z * z / n)


def percent(value, digits=0):
    return f"{100 * value:.{digits}f} %"


def table(head, rows):
    lines = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    return "\n".join(lines + ["| " + " | ".join(row) + " |" for row in rows]) + "\n"


def coverage_table(statements):
    rows = []
    groups = collections.defaultdict(list)
    for s in statements:
        groups[(s.kind, s.quantity)].append(s)
    for (kind, quantity), group in groups.items():
        if quantity in COUNTS:
            continue
        errors = [abs(s.error) for s in group]
        low, high = wilson(sum(abs(s.z) <= NORMAL_95 for s in group), len(group))
        rows.append([KINDS[kind], f"`{quantity}`", str(len(group)), percent(share(group, 1.0)), percent(share(group, NORMAL_95), 1),
                     f"{percent(low)} to {percent(high)}", percent(statistics.median(errors), 2), percent(quantile(errors, 0.95), 2),
                     percent(statistics.mean(s.error for s in group), 2), percent(statistics.median(NORMAL_95 * s.std / s.truth for s in group), 2)])
    return table(["", "quantity", "n", "68 % holds", "95 % holds", "of that (Wilson)", "median error", "95th percentile", "bias",
                  "median half width"], rows)


def count_table(statements):
    rows = []
    for kind in KINDS:
        for quantity in COUNTS:
            group = [s for s in statements if (s.kind, s.quantity) == (kind, quantity)]
            if group:
                off = [abs(round(s.value) - round(s.truth)) for s in group]
                rows.append([KINDS[kind], f"`{quantity}`", str(len(group)), percent(sum(o == 0 for o in off) / len(group)),
                             percent(sum(o <= 1 for o in off) / len(group)), percent(share(group, NORMAL_95), 1)])
    return table(["", "count", "n", "exact", "one off at most", "95 % holds"], rows)


def budget_table(statements):
    """Where one part leads the budget, the errors tell whether that part is stated too large (below 1) or too small."""
    groups = collections.defaultdict(list)
    for s in statements:
        if s.kind in ("told", "crown") and s.quantity in GAUGES + ["px_per_mm", "diameter_mm"]:
            groups[(s.quantity, s.largest_part())].append(s)
    rows = [[f"`{quantity}`", part, str(len(group)), f"{quantile([abs(s.z) for s in group], 0.68):.2f}", percent(share(group, NORMAL_95), 1)]
            for (quantity, part), group in sorted(groups.items()) if len(group) >= 10]
    return table(["quantity", "largest part", "n", "error over stated, 68th percentile", "95 % holds"], rows)


def bins(points, count=6):
    points = sorted(points)
    size = max(1, len(points) // count)
    return [points[i:i + size] for i in range(0, len(points) - size + 1, size)]


def svg(title, x_label, y_label, series, x_most, y_most, diagonal=False):
    """Scatter with lines: series of (colour, points, line); points beyond the frame lie on its edge."""
    w, h, m = 520, 320, 46
    px = lambda x: m + (w - 2 * m) * min(x, x_most) / x_most
    py = lambda y: h - m - (h - 2 * m) * min(y, y_most) / y_most
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}" font-family="sans-serif" font-size="11">',
           f'<rect width="{w}" height="{h}" fill="white"/><text x="{m}" y="18" font-size="13">{title}</text>',
           f'<text x="{w / 2:.0f}" y="{h - 8}" text-anchor="middle">{x_label}</text>',
           f'<text x="12" y="{h / 2:.0f}" transform="rotate(-90 12 {h / 2:.0f})" text-anchor="middle">{y_label}</text>']
    for k in range(6):
        x, y = x_most * k / 5, y_most * k / 5
        out.append(f'<path d="M{px(x):.0f} {h - m}V{m}M{m} {py(y):.0f}H{w - m}" stroke="#ddd"/>'
                   f'<text x="{px(x):.0f}" y="{h - m + 14}" text-anchor="middle">{x:.3g}</text>'
                   f'<text x="{m - 5}" y="{py(y) + 4:.0f}" text-anchor="end">{y:.3g}</text>')
    if diagonal:
        out.append(f'<path d="M{px(0):.0f} {py(0):.0f}L{px(x_most):.0f} {py(y_most):.0f}" stroke="#888" stroke-dasharray="4 3"/>')
    for i, (name, colour, points, line) in enumerate(series):
        out += [f'<circle cx="{px(x):.0f}" cy="{py(y):.0f}" r="1.3" fill="{colour}" fill-opacity="0.45"/>' for x, y in points]
        if line:
            path = "L".join(f"{px(x):.0f} {py(y):.0f}" for x, y in line)
            out.append(f'<path d="M{path}" fill="none" stroke="{colour}" stroke-width="2"/>')
        out.append(f'<text x="{m + 118 * i}" y="34" fill="{colour}">{name}</text>')
    return "\n".join(out) + "\n</svg>\n"


def condition_plot(statements, condition):
    points = [(s.conditions[condition], 100 * abs(s.error), 100 * NORMAL_95 * s.std / s.truth)
              for s in statements if s.kind == "told" and s.quantity in GAUGES]
    groups = bins(points)
    middle = lambda group: statistics.mean(p[0] for p in group)
    return svg("Error of stitches and rows per 10 cm, stitch told", CONDITIONS[condition], "error, per cent",
               [("photos", "#777777", [p[:2] for p in points], []),
                ("median error", "#0072b2", [], [(middle(g), statistics.median(p[1] for p in g)) for g in groups]),
                ("95th percentile", "#d55e00", [], [(middle(g), quantile([p[1] for p in g], 0.95)) for g in groups]),
                ("stated 95 %, median", "#009e73", [], [(middle(g), statistics.median(p[2] for p in g)) for g in groups])],
               quantile([p[0] for p in points], 0.99), 6.0)


def normal_limit(part):
    return statistics.NormalDist().inv_cdf(0.5 + part / 2)


def coverage_plot(statements):
    parts = [k / 20 for k in range(20)] + [0.975, 0.99]
    series = []
    for quantity, colour in zip(GAUGES + ["px_per_mm", "diameter_mm"], ["#0072b2", "#d55e00", "#009e73", "#cc79a7"]):
        group = [s for s in statements if s.quantity == quantity and s.kind in ("told", "crown")]
        if group:
            series.append((quantity, colour, [], [(100 * p, 100 * share(group, normal_limit(p))) for p in parts]))
    return svg("Do the intervals hold? (stitch told)", "stated, per cent", "held, per cent", series, 100, 100, diagonal=True)


def write(statements, refused, photos, folder, version):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "coverage.svg").write_text(coverage_plot(statements))
    for condition in CONDITIONS:
        (folder / f"error-{condition.replace('_', '-')}.svg").write_text(condition_plot(statements, condition))
    renders = len(photos["told"]) + len(photos["crown"])
    refusals = [[KINDS[kind], str(len(photos[kind])), str(sum(refused[kind].values())),
                 ", ".join(f"{code} {n}" for code, n in refused[kind].most_common())] for kind in KINDS]
    plots = "\n".join(f"![error against {label}](error-{name.replace('_', '-')}.svg)" for name, label in CONDITIONS.items())
    (folder / "README.md").write_text(f"""# Do the stated intervals hold?

{renders} seeded renders ({len(photos["told"])} swatches, each measured told the stitch and not told; {len(photos["crown"])} crowns) of 1.5 megapixels, none of
them of another test's seeds. Made by `scripts/calibration-report.sh` with {version}.
Every table and plot is written by `report.py`; what was concluded from them stands in `CONCLUSIONS.md`.

## Coverage

The aim is 93 to 97 % of the 95 % intervals. Errors are relative to the truth.

{coverage_table(statements)}
![stated against held](coverage.svg)

## Whole counts

{count_table(statements)}
## Not answered

{table(["", "photos", "refused", "why"], refusals)}
## Which part of the budget

By the part that is largest in a statement: where the last but one column is below 1 the stated uncertainty is wider than the
errors are, above 1 narrower.

{budget_table(statements)}
## What the error depends on

{plots}
""")


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    statements, refused, photos = read(sys.argv[1])
    write(statements, refused, photos, pathlib.Path(sys.argv[2]), sys.argv[3])


if __name__ == "__main__":
    main()
