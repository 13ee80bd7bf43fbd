#!/usr/bin/env python3
"""Checks that every folder of src includes only itself and the folders before it.

    scripts/check-layers.py [SOURCE_DIR]

Prints each include that points the wrong way and exits 1, or prints one line and exits 0.
"""
import pathlib
import re
import sys

ORDER = ["core", "catalog", "image", "scale", "rectify", "fabric", "recogniser", "lattice", "disc", "gauge",
         "advice", "yarns", "pipeline", "report", "web", "cli"]
WITHOUT_OPENCV = {"core", "catalog", "advice", "yarns", "web"}


def faults(source):
    for path in sorted(source.rglob("*")):
        if path.suffix not in {".h", ".cpp"}:
            continue
        layer = path.relative_to(source).parts[0]
        if layer not in ORDER:
            yield f"{path}: the folder {layer} has no place in the order of layers"
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            found = re.match(r'\s*#\s*include\s*["<]([^">]+)[">]', line)
            if not found:
                continue
            target = found.group(1)
            first = target.split("/")[0]
            if first == "opencv2" and layer in WITHOUT_OPENCV:
                yield f"{path}:{number}: {layer} must not use OpenCV"
            if first in ORDER and ORDER.index(first) > ORDER.index(layer):
                yield f"{path}:{number}: {layer} must not include {target}"


def main():
    source = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).parent.parent / "src")
    found = list(faults(source))
    print("\n".join(found) if found else "layers: every include points downwards")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
