"""A document against the schema: the validator's errors, found without using memory for more than are told."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from notchwork.values import frozen
from notchwork_schemas import schema_text

if TYPE_CHECKING:
    import jsonschema_rs

NAMED_SECTIONS = ("grade_rules", "materials", "pieces", "seams", "openings", "notions", "body", "girths")
_LARGE = 1_000_000
"""Characters of JSON from which only the first error of a piece or seam is told: every error costs memory."""


@frozen
class SchemaError:
    """One error of the validator: the ``keyword`` that failed, where in the document, and by which way in the schema.

    ``found`` is the value there, ``detail`` what the keyword says of it.
    """

    keyword: str
    at: tuple[str | int, ...]
    way: tuple[str | int, ...]
    found: Any
    detail: Mapping[str, Any]


@cache
def schema() -> dict[str, Any]:
    """The bundled schema of the format; it refers to nothing outside itself."""
    loaded: dict[str, Any] = json.loads(schema_text("pattern-1"))
    return loaded


@cache
def _validator() -> jsonschema_rs.Draft202012Validator:
    import jsonschema_rs

    return jsonschema_rs.Draft202012Validator(schema())


def is_valid(document: Mapping[str, Any]) -> bool:
    return _validator().is_valid(document)


def schema_errors(document: Mapping[str, Any]) -> Iterator[SchemaError]:
    """The errors, thing by thing; whoever has enough stops asking."""
    if is_valid(document):
        return
    yield from _overfull(document)
    for part in _parts(document):
        if is_valid(part):
            continue
        for error in _errors(part):
            at, found = _followed(part, error.instance_path)
            yield SchemaError(error.kind.name, at, tuple(error.evaluation_path), found, error.kind.as_dict())


def _overfull(document: Mapping[str, Any]) -> Iterator[SchemaError]:
    """Sections with more things than the format allows, which no thing alone shows."""
    for key in NAMED_SECTIONS:
        limit, found = schema()["properties"][key]["maxProperties"], document.get(key)
        if isinstance(found, dict) and len(found) > limit:
            yield SchemaError(
                "maxProperties", (key,), ("properties", key, "maxProperties"), found, {"limit": limit}
            )


def _parts(document: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """The document without its named things, then each of them in a document of its own."""
    sections = {
        key: document[key] for key in NAMED_SECTIONS if isinstance(document.get(key), dict) and document[key]
    }
    yield {key: {} if key in sections else value for key, value in document.items()}
    for key, things in sections.items():
        for ident, thing in things.items():
            yield {"notchwork": "1.0", key: {ident: thing}}


def _errors(part: Mapping[str, Any]) -> Iterator[jsonschema_rs.ValidationError]:
    import jsonschema_rs

    if len(json.dumps(part)) < _LARGE:
        yield from _validator().iter_errors(part)
        return
    try:
        _validator().validate(part)
    except jsonschema_rs.ValidationError as error:
        yield error


def _followed(value: Any, path: list[str | int]) -> tuple[tuple[str | int, ...], Any]:
    """The true way to a value, and the value.

    The validator gives keys that are digits ("38", "007") as numbers, and leaves out keys that are empty.
    """
    way: list[str | int] = []
    for part in path:
        key = _key(value, part)
        while key is None and isinstance(value, dict) and "" in value:
            way.append("")
            value = value[""]
            key = _key(value, part)
        if key is None:
            break
        way.append(key)
        value = value[key]
    return tuple(way), value


def _key(value: Any, part: str | int) -> str | int | None:
    if isinstance(value, list):
        return part if isinstance(part, int) and part < len(value) else None
    if not isinstance(value, dict) or part in value:
        return part if isinstance(value, dict) else None
    return next((key for key in value if key.isdecimal() and int(key) == part), None)
