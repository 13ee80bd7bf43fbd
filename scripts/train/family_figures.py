"""How often the program names the right stitch, and whether its probability of that is honest.

    python3 family_figures.py BINARY cases.json [more.json ...]

Runs `BINARY swatch --json` (crown cases: `crown`) on every case without telling the stitch. Cases are those of
tests/synthetic/render_scene or of any list of the same form: "file", "command", "stitch", "args". Prints the
confusion matrix, the reliability of the stated probability in ten bins with the expected calibration error (mean
over the bins of |said - right|, weighted by their counts), and the share of right ways of working.
"""
import collections
import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

# Stitches that differ by the loop they are worked through: named for the stitch alone.
PLAIN = {"sc-blo": "sc", "sc-flo": "sc", "hdc-blo": "hdc"}


def read(binary, case, folder):
    command = [binary, case["command"], "--json", *case.get("args", []), os.path.join(folder, case["file"])]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    document = json.loads(done.stdout) if done.stdout.strip().startswith("{") else {}
    stitch = document.get("stitch") or {}
    return case, stitch.get("family"), stitch.get("confidence"), stitch.get("worked"), bool(stitch)


def reliability(pairs):
    """pairs of (said probability, right). Prints ten bins and returns the expected calibration error."""
    error = 0.0
    for k in range(10):
        bin_of = [(p, r) for p, r in pairs if min(int(10 * p), 9) == k]
        if not bin_of:
            continue
        said = sum(p for p, _ in bin_of) / len(bin_of)
        right = sum(r for _, r in bin_of) / len(bin_of)
        error += abs(said - right) * len(bin_of) / len(pairs)
        print("  %.1f to %.1f: %4d  said %.2f  right %.2f" % (k / 10, (k + 1) / 10, len(bin_of), said, right))
    return error


def main(binary, lists):
    jobs = []
    for path in lists:
        for case in json.load(open(path))["cases"]:
            if case["command"] in ("swatch", "crown") and case.get("stitch"):
                jobs.append((case, os.path.dirname(path)))
    with ThreadPoolExecutor(2) as pool:
        rows = list(pool.map(lambda job: read(binary, *job), jobs))
    answered = [r for r in rows if r[4]]
    named = [r for r in answered if r[1]]
    right = [r[1] == r[0]["stitch"] for r in named]
    apart = [PLAIN.get(r[1], r[1]) == PLAIN.get(r[0]["stitch"], r[0]["stitch"]) for r in named]
    print("pictures %d, answered %d, stitch named %d" % (len(rows), len(answered), len(named)))
    print("right of the answered %.3f, of the named %.3f; loops left apart %.3f and %.3f" % (
        sum(right) / len(answered), sum(right) / len(named), sum(apart) / len(answered), sum(apart) / len(named)))
    matrix = collections.Counter((r[0]["stitch"], r[1] or "none") for r in answered)
    for family in sorted({key[0] for key in matrix}):
        said = sorted(((n, key[1]) for key, n in matrix.items() if key[0] == family), reverse=True)
        print("  %-12s %s" % (family, ", ".join("%s %d" % (name, n) for n, name in said)))
    print("expected calibration error %.3f" % reliability([(r[2], ok) for r, ok in zip(named, right)]))
    worked = [r[3] == r[0]["worked"] for r in answered if r[3] and r[0]["stitch"] != "stockinette"]
    if worked:
        print("way of working right %.3f of %d" % (sum(worked) / len(worked), len(worked)))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
