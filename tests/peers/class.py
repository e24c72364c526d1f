"""How long does a class take beside the disk alone, and beside another kernel?

`class.py BOXNECK BASE.toml COUNT` makes a class of COUNT instruments, each of another scale length, in every format, and times in the same run
(a) the same files written again to the same disk, from memory, and (b) OpenCascade on every core building every solid that an instrument
has a file of (the models that the judges hold against our files; triangles and STEP text), on a sample where there are many. (b) does less
than the program does: no check, no drawing, no paper, no page. A row of its own times ours with every solid (STL and STEP) and no other
format, checks and mends included. Prints one table. Called by `tests/bench-class`.
"""

import json
import multiprocessing
import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import time
import tomllib

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "judges")]

# As many as OpenCascade builds in some seconds; the rest is in proportion.
SAMPLE = 40
# The scale lengths, in millimetres.
SHORTEST, LONGEST = 600.0, 650.0


def roster(path, count):
    step = (LONGEST - SHORTEST) / max(count - 1, 1)
    rows = [f"Student {number + 1},{SHORTEST + number * step:.4f} mm" for number in range(count)]
    path.write_text("\n".join(["student,scale.length", *rows]) + "\n", encoding="utf-8")


def timed(work):
    began = time.perf_counter()
    result = work()
    return time.perf_counter() - began, result


def made(program, base, table, folder, *options):
    call = [program, "batch", table, "--base", base, "-o", folder, "--anyway", *options]
    run = subprocess.run(call, check=False, capture_output=True, text=True)
    assert run.returncode in (0, 1), run.stderr
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def written(files, folder):
    for path, content in files:
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)


class Row:
    """One instrument of the class, as the models take it."""

    def __init__(self, document_path, layout_path):
        self.document_path = document_path
        self.document = tomllib.loads(document_path.read_text(encoding="utf-8"))
        self.layout = json.loads(layout_path.read_text(encoding="utf-8"))


def built(paths):
    """Every solid of one instrument by OpenCascade; how many there are."""
    import parts
    import solids

    row = Row(*paths)
    names = sorted(parts.names(row))
    with tempfile.TemporaryDirectory() as folder:
        for name in names:
            _, model = parts.PARTS[name]
            shape = model(row)
            solids.occ_mesh(shape)
            solids.occ_step(shape, pathlib.Path(folder) / f"{name}.step")
    return len(names)


def main(program, base, count):
    count, cores = int(count), os.cpu_count() or 1
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        roster(work / "roster.csv", count)
        ours, peak = timed(lambda: made(program, base, work / "roster.csv", work / "class"))
        solids_alone, _ = timed(lambda: made(program, base, work / "roster.csv", work / "solids", "--formats", "stl,step"))
        paths = [path for path in sorted((work / "class").rglob("*")) if path.is_file()]
        layouts = [path for path in paths if path.name == "layout.json"]
        assert len(layouts) == count, f"{len(layouts)} instruments of {count} were made"
        size = sum(path.stat().st_size for path in paths)
        disk = 0.0
        # A share at a time, so that memory holds them.
        for number, layout in enumerate(layouts):
            folder = layout.parent
            files = [(path.relative_to(folder), path.read_bytes()) for path in folder.rglob("*") if path.is_file()]
            disk += timed(lambda: written(files, work / "again" / str(number)))[0]
        sample = [(pathlib.Path(base), layout) for layout in layouts[:: max(len(layouts) // SAMPLE, 1)][:SAMPLE]]
        with multiprocessing.Pool(cores) as pool:
            # Every worker reads the kernel before the clock starts.
            pool.map(built, sample[:cores], chunksize=1)
            peer, counts = timed(lambda: pool.map(built, sample, chunksize=1))
        # Two ways to the same solids, or the times compare nothing.
        assert counts == [len(list(layout.parent.glob("solids/*.step"))) for _, layout in sample], counts
        peer *= count / len(sample)
    print(f"\n{count} instruments, {len(paths)} files, {size / 1e6:.0f} MB, {cores} cores; seconds, and how many times ours\n")
    print(f"{'our whole class, every format':<58}{ours:>9.2f}   (peak memory {peak:.0f} MB)")
    print(f"{'our solids alone, all of each, checked and mended':<58}{solids_alone:>9.2f}{solids_alone / ours:>9.2f}")
    print(f"{'(a) the same files of the instruments to the same disk':<58}{disk:>9.2f}{disk / ours:>9.2f}")
    print(f"{f'(b) all {counts[0]} solids of each by OpenCascade, from {len(sample)}':<58}{peer:>9.2f}{peer / ours:>9.2f}")


if __name__ == "__main__":
    main(*sys.argv[1:4])
