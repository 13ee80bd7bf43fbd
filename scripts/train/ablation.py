"""What the plain method, the network and both together give, told the stitch and not.

    python3 ablation.py BINARY MODELS cases.json [more.json ...]

Runs every swatch case of the lists four times: with MODELS and with a copy of it whose networks were taken away, each
with the stitch told and not. "network" is its best reading as the trace notes it, always answered, before the plain
method refines and checks it. Right period: within 15 %; wrong: off by more than 5 % and outside the stated interval.
"""
import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

KEYS = {"stitches_per_10cm": 0, "rows_per_10cm": 1}


def run(binary, models, case, folder, told):
    """Returns {key: (value, low, high)} of the answer and {key: value} of the network."""
    command = [binary, "swatch", "--json", *case.get("args", [])]
    if told:
        command += ["--stitch", case["stitch"], *case.get("told_args", [])]
        if case.get("worked"):
            command += ["--worked", case["worked"]]
    with tempfile.TemporaryDirectory() as trace:
        done = subprocess.run([*command, "--trace", trace, os.path.join(folder, case["file"])], capture_output=True,
                              text=True, timeout=300, env={**os.environ, "RIDGETALLY_MODELS": models})
        notes = os.path.join(trace, "notes.txt")
        lines = open(notes).read().splitlines() if os.path.exists(notes) else []
    document = json.loads(done.stdout) if done.stdout.startswith("{") else {}
    swatch = document.get("swatch") or {}
    answer = {k: (swatch[k]["value"], swatch[k]["low95"], swatch[k]["high95"]) for k in KEYS if k in swatch}
    seen = [line.split() for line in lines if line.startswith("recogniser: stitch ")]
    network = {k: 100.0 / float(seen[0][2 + 3 * n]) for k, n in KEYS.items()} if seen else {}
    return answer, network


def line(name, cases, answers):
    parts = []
    for key in KEYS:
        scored = [(c["truth"][key], a[key]) for c, a in zip(cases, answers) if key in c["truth"] and key in a]
        errors = [abs(v[0] / truth - 1) if isinstance(v, tuple) else abs(v / truth - 1) for truth, v in scored]
        near = [e for e in errors if e < 0.15]
        wrong = sum(1 for (truth, v), e in zip(scored, errors)
                    if e > 0.05 and isinstance(v, tuple) and not v[1] <= truth <= v[2])
        of = sum(1 for c in cases if key in c["truth"])
        parts.append("%s answered %d of %d, right period %d, median %.2f %%, wrong %d" % (
            key[:6], len(scored), of, len(near), 100 * statistics.median(near) if near else 0, wrong))
    print("%-22s %s" % (name, "; ".join(parts)), flush=True)


def main(binary, models, lists):
    cases = [(c, os.path.dirname(p)) for p in lists for c in json.load(open(p))["cases"]
             if c["command"] == "swatch" and c.get("stitch")]
    with tempfile.TemporaryDirectory() as bare, ThreadPoolExecutor(2) as pool:
        plain = os.path.join(bare, "models")
        shutil.copytree(models, plain, ignore=shutil.ignore_patterns("*.onnx"))
        for told in (True, False):
            word = "told" if told else "not told"
            both = list(pool.map(lambda c: run(binary, models, *c, told), cases))
            alone = list(pool.map(lambda c: run(binary, plain, *c, told), cases))
            only = [c for c, _ in cases]
            line("plain alone, " + word, only, [a for a, _ in alone])
            if not told:
                line("network alone, " + word, only, [n for _, n in both])
            line("both, " + word, only, [a for a, _ in both])


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
