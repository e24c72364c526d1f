"""Does the manifest tell the truth about every file, and is there no other?"""

import hashlib
import json

import builds


def test_every_document_was_made():
    # With --anyway a failing finding is 1, and the files are there.
    fine = {0, 1} if "--anyway" in builds.make_options() else {0}
    silent = {build.name: (build.status, build.said) for build in builds.builds() if build.status not in fine}
    assert builds.builds(), "there are documents in specs/"
    assert not silent, f"not made: {silent}"


def test_it_lists_every_file_and_no_other(build):
    listed = {row["path"] for row in manifest(build)["files"]}
    found = {path.relative_to(build.folder).as_posix() for path in build.files("**/*") if path.is_file()}
    assert listed == found - {"manifest.json"}


def test_sizes_and_hashes_are_true(build):
    for row in manifest(build)["files"]:
        data = (build.folder / row["path"]).read_bytes()
        assert row["bytes"] == len(data), row["path"]
        assert row["sha256"] == hashlib.sha256(data).hexdigest(), row["path"]


def test_it_names_the_document(build):
    hashed = build.document_path.read_bytes()
    sections = [build.document.get("headstock", {}), *build.document.get("box", {}).get("holes", [])]
    for name in sorted({section["outline"] for section in sections if "outline" in section}):
        hashed += b"\0" + name.encode() + b"\0" + (build.document_path.parent / name).read_bytes()
    assert manifest(build)["document_sha256"] == hashlib.sha256(hashed).hexdigest()
    assert manifest(build)["program_version"]


def test_nothing_else_is_left_beside_the_build(build):
    assert sorted(build.out.iterdir()) == [build.folder], "no staging folder remains"


def test_what_a_build_leaves(build):
    found = {path.relative_to(build.folder).as_posix() for path in build.files("**/*")}
    assert {"layout.json", "manifest.json", "cut-list.csv", "overview.svg"} <= found


def manifest(build):
    return json.loads((build.folder / "manifest.json").read_text(encoding="utf-8"))
