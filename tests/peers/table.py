"""Which kernel takes how long? One table from our benchmark's text and the peers' JSON.

Called by `tests/bench`: `table.py OURS.txt PEERS.json`. The benchmark prints a tree; a row is found by the names on the
way to it, one of which says the part and another `mesh` or `step`.
"""

import json
import pathlib
import re
import sys

# Milliseconds in a unit of the benchmark's text.
UNITS = {"ps": 1e-9, "ns": 1e-6, "µs": 1e-3, "ms": 1.0, "s": 1e3}
PARTS = ("nut", "tail-block", "fretboard")


def medians(text):
    """`{(part, what): ms}` from the third column of a tree of names and times."""
    found, way = {}, []
    for line in text.splitlines():
        match = re.match(r"^((?:[│ ]  )*)(?:[├╰]─ )?(\S+)(.*)$", line)
        if not match or "─" not in line[:12]:
            continue
        depth, name, rest = len(match[1]) // 3, match[2].replace("_", "-"), match[3]
        way = way[:depth] + [name]
        times = re.findall(r"([\d.]+) (ps|ns|µs|ms|s)\b", rest)
        part = next((part for part in PARTS if part in way), None)
        what = next((what for what in ("mesh", "step") if what in way), None)
        if part and what and len(times) >= 3:
            number, unit = times[2]
            found[part, what] = float(number) * UNITS[unit]
    return found


def main(ours_path, peers_path):
    ours = medians(pathlib.Path(ours_path).read_text(encoding="utf-8"))
    peers = json.loads(pathlib.Path(peers_path).read_text(encoding="utf-8"))
    missing = [(part, what) for part in peers for what in ("mesh", "step") if (part, what) not in ours]
    if missing:
        raise SystemExit(f"tests/bench: the benchmark has no row for {missing}")
    print("\nmedians in ms at a chord tolerance of 0.02 mm; in brackets, how many times ours\n")
    print(f"{'part':<12}{'our mesh':>10}{'OpenCascade':>20}{'manifold3d':>20}{'our STEP':>12}{'OpenCascade':>20}")
    for part, row in peers.items():
        mesh, step = ours[part, "mesh"], ours[part, "step"]
        ratio = lambda theirs, own: f"{theirs:.2f} ({theirs / own:.0f})"
        print(
            f"{part:<12}{mesh:>10.3f}{ratio(row['occ_mesh_ms'], mesh):>20}"
            f"{ratio(row['manifold3d_mesh_ms'], mesh):>20}{step:>12.3f}{ratio(row['occ_step_ms'], step):>20}"
        )


if __name__ == "__main__":
    main(*sys.argv[1:3])
