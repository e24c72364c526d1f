"""Which documents were made into files, and where do these lie?

`tests/run` makes every document of `specs/` and says where in two environment variables:

- `BOXNECK`: the program;
- `BOXNECK_BUILDS`: a folder with, for a document `specs/porch.toml`, the folder `porch/` that was given as `-o`, the
  exit status in `porch.status` and what the program said in `porch.out` and `porch.err`;
- `BOXNECK_DOCUMENTS`: another folder in place of `specs/`, as `tests/soak/run` gives it;
- `BOXNECK_MAKE_OPTIONS`: what else `make` was told for the builds.
"""

import functools
import json
import os
import pathlib
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]


def required(variable):
    """A path that must be given in the environment."""
    value = os.environ.get(variable)
    if not value:
        raise RuntimeError(f"{variable} is not set: run tests/run, which makes the builds and then calls the judges")
    return pathlib.Path(value).resolve()


def program():
    return required("BOXNECK")


def make_options():
    return os.environ.get("BOXNECK_MAKE_OPTIONS", "").split()


class Build:
    """One document and what was made of it."""

    def __init__(self, document_path):
        self.document_path = document_path
        self.name = document_path.stem
        self.out = required("BOXNECK_BUILDS") / self.name

    def __repr__(self):
        return self.name

    @property
    def status(self):
        return int((self.out.parent / f"{self.name}.status").read_text())

    @property
    def said(self):
        return "".join((self.out.parent / f"{self.name}{end}").read_text() for end in (".out", ".err"))

    @functools.cached_property
    def folder(self):
        """The one folder that a build leaves."""
        folders = sorted(self.out.iterdir()) if self.out.is_dir() else []
        assert len(folders) == 1, f"{self.name}: expected one folder in {self.out}, found {folders}; said: {self.said}"
        return folders[0]

    @functools.cached_property
    def layout(self):
        return json.loads((self.folder / "layout.json").read_text(encoding="utf-8"))

    @functools.cached_property
    def document(self):
        return tomllib.loads(self.document_path.read_text(encoding="utf-8"))

    def files(self, pattern):
        return sorted(self.folder.glob(pattern)) if self.out.is_dir() else []


def documents():
    """Every document of the folder."""
    return sorted(pathlib.Path(os.environ.get("BOXNECK_DOCUMENTS", ROOT / "specs")).glob("*.toml"))


@functools.cache
def builds():
    """Every document with its build, made or not."""
    return [Build(path) for path in documents()]


def made():
    """The builds that left files."""
    return [build for build in builds() if build.out.is_dir() and any(build.out.iterdir())]


def made_files(pattern):
    """Pairs of a build and one of its files, with a readable name for each."""
    return [(f"{build.name}/{path.stem}", build, path) for build in made() for path in build.files(pattern)]
