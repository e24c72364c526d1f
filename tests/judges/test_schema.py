"""Does the schema describe what a document may say, to a validator that is not ours?"""

import functools
import json
import subprocess
import tomllib

import jsonschema
import pytest

import builds

BAD = sorted((builds.ROOT / "tests" / "bad").glob("**/*.toml"))


@functools.cache
def schema():
    said = subprocess.run([builds.program(), "schema"], capture_output=True, text=True, timeout=60, check=True)
    return json.loads(said.stdout)


@functools.cache
def validator():
    return jsonschema.Draft202012Validator(schema())


def parsed(path):
    """The document as a validator sees it; `None` where it is not TOML at all."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):
        return None


def faults(document):
    return [f"{error.json_path}: {error.message}" for error in validator().iter_errors(document)]


def test_it_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(schema())
    assert schema()["$schema"].startswith("https://json-schema.org/draft/2020-12/")


def test_every_key_is_explained():
    def properties(node, path):
        if isinstance(node, dict):
            for key, inner in node.get("properties", {}).items():
                # A property whose schema is `false` is one that may not be there.
                if inner is not False:
                    yield f"{path}.{key}", inner
            for key, inner in node.items():
                yield from properties(inner, f"{path}.{key}")
        elif isinstance(node, list):
            for index, inner in enumerate(node):
                yield from properties(inner, f"{path}[{index}]")

    silent = {path for path, node in properties(schema(), "$") if node is True or not node.get("description")}
    assert not silent, f"keys without a description: {sorted(silent)}"


@pytest.mark.parametrize("path", builds.documents(), ids=lambda path: path.stem)
def test_every_document_of_the_project_validates(path):
    assert not faults(parsed(path))


def test_an_empty_document_validates():
    assert not faults({}), "every key has a default"


@pytest.mark.parametrize("document", [
    {"nmae": "x"},
    {"scale": {"lenght": "25 in"}},
    {"strings": [{"pitch": "G2", "diameter": "0.036 in", "gauge": 1}]},
    {"box": {"holes": [{"purpose": "sound", "face": "lid", "at": [1, 1], "diameter": 1, "girth": 1}]}},
    {"box": {"holes": [{"purpose": "sound", "face": "lid", "at": [1, 1], "diameter": 1, "length": 1, "width": 1}]}},
    {"neck": {"section": "round"}},
    {"neck": {"wood": "unobtainium"}},
    {"handed": "both"},
    {"scale": {"frets": "many"}},
    {"scale": []},
    {"strings": []},
    {"strings": [{"pitch": "G2", "diameter": "0.036 in"}] * 7},
    {"print": {"bed": ["220 mm"]}},
], ids=str)
def test_what_is_wrong_in_shape_is_refused(document):
    assert faults(document)


# What a schema can see of a fault, by the program's codes: an unknown key (S006, S007), a value of the wrong kind (S008),
# a word that is not a choice (S013, S014), a missing key (S015) and a list of the wrong length (S016). What depends on
# another key or on arithmetic, it cannot.
SHAPE = {"S006", "S007", "S008", "S013", "S014", "S015", "S016"}


def told_codes(path):
    """The codes that a bad document's first line says it is refused with."""
    first = path.read_bytes().split(b"\n", 1)[0].decode("utf-8", "replace")
    return set(first.removeprefix("# expects:").split()) if first.startswith("# expects:") else set()


WRONG_SHAPE = [path for path in BAD if told_codes(path) & SHAPE and parsed(path) is not None]


def test_the_corpus_has_documents_of_the_wrong_shape():
    assert len(WRONG_SHAPE) >= 10, "the next judge would be idle"


@pytest.mark.parametrize("path", WRONG_SHAPE, ids=lambda path: path.stem)
def test_bad_documents_that_are_wrong_in_shape_are_refused(path):
    assert faults(parsed(path)), f"{path.name} validates, and gives {sorted(told_codes(path))}"
