"""What a key means stands in the schema and in the model; here they are held together."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import pytest

from notchwork import model
from notchwork.document.codec import keys_of
from notchwork.document.validity import schema
from notchwork_schemas import schema_text

CASES = Path(__file__).parents[2] / "cases"

DEFINITIONS = {
    "": model.Pattern,
    "sizes": model.Sizes,
    "material": model.Material,
    "notion": model.Notion,
    "acceptance": model.Acceptance,
    "girth": model.Girth,
    "step": model.Step,
    "node": model.Node,
    "finish": model.Finish,
    "edge": model.Edge,
    "notch": model.Notch,
    "leg": model.Leg,
    "dart": model.Dart,
    "pleat": model.Pleat,
    "inner_line": model.InnerLine,
    "cutout": model.CutOut,
    "mark": model.Mark,
    "strip": model.Strip,
    "cut": model.Cut,
    "piece": model.Piece,
    "span_object": model.Span,
    "join": model.Join,
    "side_object": model.Side,
    "seam": model.Seam,
    "opening": model.Opening,
    "graded_point": model.GradedPoint,
}


def definition(name: str) -> dict[str, Any]:
    found: dict[str, Any] = schema()["$defs"][name] if name else schema()
    return found.get("then", found) if name == "graded_point" else found


@pytest.mark.parametrize("name", DEFINITIONS)
def test_the_schema_has_the_models_keys_in_the_models_order(name: str) -> None:
    assert list(definition(name)["properties"]) == [key.key for key in keys_of(DEFINITIONS[name])]


@pytest.mark.parametrize("name", DEFINITIONS)
def test_what_the_schema_requires_is_always_written(name: str) -> None:
    required = set(definition(name).get("required", ()))
    assert required == {key.key for key in keys_of(DEFINITIONS[name]) if key.default is MISSING}


@pytest.mark.parametrize("name", DEFINITIONS)
def test_the_schema_has_the_models_words(name: str) -> None:
    for key in keys_of(DEFINITIONS[name]):
        words = list(_words(key.hint))
        if words:
            assert list(_enum(definition(name)["properties"][key.key])) == words, key.key


@pytest.mark.parametrize("name", DEFINITIONS)
def test_every_key_is_described_with_an_example_and_no_other_is_taken(name: str) -> None:
    stated = definition(name)
    assert stated["title"]
    assert stated["description"]
    assert stated["additionalProperties"] is False
    assert stated["patternProperties"] == {"^x-": True}
    for key, value in stated["properties"].items():
        assert value["description"].endswith("."), key
        assert value["examples"], key


def test_every_class_of_the_model_is_in_the_schema() -> None:
    written = {
        thing
        for thing in vars(model).values()
        if isinstance(thing, type) and is_dataclass(thing) and issubclass(thing, model.Stated)
    }
    assert written - {model.Stated} == set(DEFINITIONS.values())


def test_every_key_occurs_in_the_long_case() -> None:
    document = json.loads((CASES / "every_key.pattern.json").read_text(encoding="utf-8"))
    used = set(_used(document, model.Pattern))
    assert used == {(cls, key.key) for cls in DEFINITIONS.values() for key in keys_of(cls)}


def test_every_word_of_the_short_lists_is_a_word_of_the_schema() -> None:
    """The lists of words stand in the model as Literals; a field that has one is checked above, so none is missed.

    The version is no word of a list.
    """
    for cls in DEFINITIONS.values():
        for f in fields(cls):
            assert (
                not isinstance(f.default, str)
                or f.metadata.get("required")
                or f.default
                in {word for key in keys_of(cls) if key.name == f.name for word in _words(key.hint)}
            )


def test_the_schema_refers_to_nothing_outside_itself() -> None:
    references = [
        value for key, value in _pairs(schema()) if key in ("$ref", "$dynamicRef", "$schema", "$id")
    ]
    outside = {value for value in references if not value.startswith("#/$defs/")}
    assert outside == {"https://json-schema.org/draft/2020-12/schema", "urn:notchwork:schema:pattern-1"}
    assert "CC0-1.0" in schema()["$comment"]
    used = {value.rpartition("/")[2] for value in references if value.startswith("#/$defs/")}
    assert used == set(schema()["$defs"])


def test_a_schema_is_given_by_name() -> None:
    assert json.loads(schema_text("pattern-1")) == schema()
    with pytest.raises(KeyError):
        schema_text("pattern-2")


def _words(hint: Any) -> Iterator[str]:
    if get_origin(hint) is Literal:
        yield from get_args(hint)
    elif not (isinstance(get_origin(hint), type) and issubclass(get_origin(hint), (Mapping, tuple))):
        for inner in get_args(hint):
            yield from _words(inner)


def _enum(stated: Mapping[str, Any]) -> Iterator[str]:
    if "$ref" in stated:
        stated = schema()["$defs"][stated["$ref"].rpartition("/")[2]]
    yield from stated.get("enum", ()) or _enum(stated["else"])


def _used(value: Any, hint: Any) -> Iterator[tuple[type, str]]:
    """The keys that a document uses, by the class that has them."""
    if is_dataclass(hint) and isinstance(hint, type) and hint is not model.Place:
        keys = {key.key: key for key in keys_of(hint)}
        if not isinstance(value, dict):
            value = {next(key.key for key in keys.values() if key.bare): value}
            if hint is model.GradedPoint:
                return
        for name, entry in value.items():
            if name in keys:
                yield hint, name
                yield from _used(entry, keys[name].hint)
    elif isinstance(value, (dict, list)):
        origin = get_origin(hint)
        inner = [arg for arg in get_args(hint) if not isinstance(arg, str)]
        if origin is tuple:
            for entry in value:
                yield from _used(entry, inner[0])
        elif isinstance(origin, type) and issubclass(origin, Mapping):
            for entry in value.values() if isinstance(value, dict) else ():
                yield from _used(entry, inner[1])
        else:
            for arg in inner:
                yield from _used(value, arg)


def _pairs(value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        yield from ((key, entry) for key, entry in value.items() if isinstance(entry, str))
    for entry in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from _pairs(entry)
