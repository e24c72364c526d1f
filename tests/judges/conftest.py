"""Runs each judge once a build, a drawing, a mesh, a STEP file, a plate or a file of templates."""

import pytest

import builds

PATTERNS = {
    "drawing": "drawings/*.dxf",
    "picture": "**/*.svg",
    "mesh": "solids/*.stl",
    "step": "solids/*.step",
    "plate": "solids/plate*.3mf",
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
