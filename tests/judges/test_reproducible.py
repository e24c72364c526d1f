"""Does the same document give the same bytes, whatever the day's settings?"""

import os
import shutil
import subprocess

import builds

SETTINGS = [
    {"TZ": "Pacific/Kiritimati", "LANG": "de_DE.UTF-8", "LC_ALL": "de_DE.UTF-8", "RAYON_NUM_THREADS": "1"},
    {"TZ": "America/St_Johns", "LANG": "C", "LC_ALL": "C", "RAYON_NUM_THREADS": "7", "SOURCE_DATE_EPOCH": "1"},
]


def contents(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.glob("**/*") if path.is_file()}


def test_again_elsewhere_with_other_settings(build, tmp_path):
    first = contents(build.folder)
    for index, settings in enumerate(SETTINGS):
        place = tmp_path / f"run {index}"
        place.mkdir()
        document = place / "another name.toml"
        document.write_bytes(build.document_path.read_bytes())
        # The drawings that documents name lie beside them.
        shutil.copytree(builds.ROOT / "specs/outlines", place / "outlines")
        made = subprocess.run(
            [builds.program(), "make", document.name, "-o", "there", *builds.make_options()],
            cwd=place, env={**os.environ, **settings}, capture_output=True, text=True, timeout=120,
        )
        assert made.returncode == build.status, made.stderr
        again = contents(place / "there" / build.folder.name)
        assert set(again) == set(first), "the same files"
        differing = [name for name in first if first[name] != again[name]]
        assert not differing, f"{differing} differ under {settings}"
