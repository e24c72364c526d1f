"""Runs each judge once a build, a drawing, a mesh, a STEP file, a plate or a file of templates."""

import os
import shutil

import pytest

import builds

PATTERNS = {
    "drawing": "drawings/*.dxf",
    "picture": "**/*.svg",
    "mesh": "solids/*.stl",
    "step": "solids/*.step",
    "plate": "solids/*.3mf",
    "paper": "templates-*.pdf",
}


def pytest_generate_tests(metafunc):
    if "build" in metafunc.fixturenames:
        metafunc.parametrize("build", builds.made(), ids=str)
    for kind, pattern in PATTERNS.items():
        if kind in metafunc.fixturenames:
            rows = builds.made_files(pattern)
            metafunc.parametrize(kind, [row[1:] for row in rows], ids=[row[0] for row in rows])


@pytest.fixture(scope="session")
def program():
    return builds.program()


@pytest.fixture(scope="session")
def browser():
    found = shutil.which("chromium")
    if found is None:
        # On Debian, tests/run has tried to install it.
        missing = "chromium is not installed (Debian: apt-get install chromium)"
        (pytest.fail if os.geteuid() == 0 and shutil.which("apt-get") else pytest.skip)(missing)
    return found
