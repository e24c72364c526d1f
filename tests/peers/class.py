"""How long does a class take beside the disk alone, and beside another kernel?

`class.py BOXNECK BASE.toml COUNT` makes a class of COUNT instruments, each of another scale length, in every format, and times in the same run
(a) the same files written again to the same disk, from memory, and (b) OpenCascade on every core building three solids of each (nut, tail
block, fretboard; triangles and STEP text), on a sample where there are many. (b) does less than the program does:
no other solid, no drawing, no paper, no page. A row of its own times ours with every solid (STL and STEP) and no other format, checks and
mends included. Prints one table. Called by `tests/bench-class`.
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

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))

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


def built(path):
    import solids

    layout = json.loads(pathlib.Path(path).read_text(encoding="utf-8"))
    with tempfile.TemporaryDirectory() as folder:
        for name, (model, _) in solids.PARTS.items():
            if (shape := model(layout)) is not None:
                solids.occ_mesh(shape)
                solids.occ_step(shape, pathlib.Path(folder) / f"{name}.step")
    return path


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
        sample = layouts[:: max(len(layouts) // SAMPLE, 1)][:SAMPLE]
        with multiprocessing.Pool(cores) as pool:
            # Every worker reads the kernel before the clock starts.
            pool.map(built, sample[:cores], chunksize=1)
            peer = timed(lambda: pool.map(built, sample, chunksize=1))[0] / len(sample) * count
    print(f"\n{count} instruments, {len(paths)} files, {size / 1e6:.0f} MB, {cores} cores; seconds, and how many times ours\n")
    print(f"{'our whole class, every format':<58}{ours:>9.2f}   (peak memory {peak:.0f} MB)")
    print(f"{'our solids alone, all of each, checked and mended':<58}{solids_alone:>9.2f}{solids_alone / ours:>9.2f}")
    print(f"{'(a) the same files of the instruments to the same disk':<58}{disk:>9.2f}{disk / ours:>9.2f}")
    print(f"{f'(b) three solids of each by OpenCascade, from {len(sample)}':<58}{peer:>9.2f}{peer / ours:>9.2f}")


if __name__ == "__main__":
    main(*sys.argv[1:4])
