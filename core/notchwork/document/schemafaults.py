"""The validator's errors in plain words: which key, what was found, what is right, and an example."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from notchwork.document.faults import (
    BAD_NAME,
    CONTRADICTION,
    KEPT_KEY,
    MISSING_KEY,
    OUT_OF_RANGE,
    UNKNOWN_KEY,
    UNKNOWN_WORD,
    WRONG_TYPE,
    fault,
)
from notchwork.document.nearest import nearest
from notchwork.document.pointers import pointer
from notchwork.document.validity import SchemaError, schema
from notchwork.findings import Finding, Rule, listed

_MOST_SHOWN = 40
_GROUPED = 10_000
_INTO = {"properties": 2, "patternProperties": 2, "prefixItems": 2, "additionalProperties": 1, "items": 1}
"""Keywords of the schema that lead one step deeper into the document, and how many steps of the way they take."""


class Expected(NamedTuple):
    """What the schema says of one place: every schema that holds there, the outermost first."""

    holding: tuple[Mapping[str, Any], ...]

    def first(self, key: str) -> Any:
        return next((part[key] for part in self.holding if key in part), None)

    @property
    def title(self) -> str:
        return str(self.first("title"))

    @property
    def keys(self) -> dict[str, Mapping[str, Any]]:
        """The keys that an object may have here."""
        return {key: value for part in self.holding for key, value in part.get("properties", {}).items()}


def faults_of(errors: Iterable[SchemaError]) -> Iterator[Finding]:
    """A finding for each error, leaving out what only follows from another: a key that is missing because it is misspelt."""
    errors = list(errors)
    misspelt = {
        (error.at, suggestion)
        for error in errors
        if error.keyword == "additionalProperties"
        for key in unknown_keys(error)
        if (suggestion := suggested(error, key))
    }
    told = set()
    for error in errors:
        if error.keyword == "required" and (error.at, error.detail["property"]) in misspelt:
            continue
        for finding in _told(error):
            place = (finding.place.pointer, finding.rule.id, finding.values.get("key"))
            if place not in told:
                told.add(place)
                yield finding


def kept_keys(errors: Iterable[SchemaError]) -> Iterator[Finding]:
    """An info for each key of a newer version that is kept and not understood."""
    for error in errors:
        for key in unknown_keys(error):
            yield fault(
                KEPT_KEY,
                pointer(*error.at, key),
                '"{key}" is not known to this program; it is kept as it is.',
                'If it is a slip of the pen: did you mean "{suggestion}"?' if suggested(error, key) else "",
                said_of=pointer(*error.at),
                key=key,
                suggestion=suggested(error, key),
            )


def unknown_keys(error: SchemaError) -> list[str]:
    """The keys that the schema does not know."""
    return list(error.detail["unexpected"])


def suggested(error: SchemaError, key: str) -> str | None:
    """The key of the format that was probably meant."""
    return nearest(key, expected(error.way[:-1]).keys)


def expected(way: tuple[str | int, ...]) -> Expected:
    """The schemas that hold at the end of a way through the schema, those reached by the last step in the document."""
    node: Any = schema()
    holding = [node]
    index = 0
    while index < len(way):
        step = way[index]
        if step == "$ref":
            node = schema()["$defs"][str(node["$ref"]).rpartition("/")[2]]
            holding.append(node)
            index += 1
            continue
        if step == "$defs":  # the validator's way to what a name of a key should be begins anew
            node = schema()
        taken = _INTO.get(str(step), 0)
        for part in way[index : index + max(taken, 1)]:
            node = node[part]
        if taken:
            holding = []
        if isinstance(node, Mapping):
            holding.append(node)
        index += max(taken, 1)
    return Expected(tuple(holding))


def shown(value: Any) -> str:
    """A value as it stands in the document, shortened; the digits of a large number in groups."""
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    large = number and _GROUPED <= abs(value) < math.inf
    text = f"{value:,}".removesuffix(".0") if large else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 1]}…"


def example_of(what: Mapping[str, Any]) -> str:
    """The shortest example that the schema gives of a key, whole; empty where there is none."""
    return min(
        (json.dumps(example, ensure_ascii=False) for example in what.get("examples", ())), key=len, default=""
    )


def _told(error: SchemaError) -> Iterator[Finding]:
    what = expected(error.way[:-1])
    special = _SPECIAL.get(error.keyword)
    if special is not None:
        yield from special(error, what)
    elif what.holding and "left away" in str(what.holding[-1].get("title", "")):
        yield from _contradiction(error, what)
    else:
        yield _wrong(WRONG_TYPE if error.keyword in ("type", "pattern") else OUT_OF_RANGE, error, what)


def _wrong(rule: Rule, error: SchemaError, what: Expected, hint: str = "") -> Finding:
    example = next((text for part in what.holding if (text := example_of(part))), "")
    return fault(
        rule,
        pointer(*error.at),
        "this should be {right}; found {found}.",
        hint or ("For example {example}." if example else ""),
        right=what.title,
        found=shown(error.found),
        example=example,
    )


def _bound(error: SchemaError, what: Expected) -> Iterator[Finding]:
    """A number beyond a limit that the title does not name."""
    limit, title = error.detail["limit"], what.title
    if error.keyword.endswith("inimum") and limit >= 0:
        yield _wrong(OUT_OF_RANGE, error, what)
        return
    right = re.sub(r"of (\d+) or more|(?<=above) (\d+)", lambda least: _from(least, limit), title)
    yield fault(
        OUT_OF_RANGE,
        pointer(*error.at),
        "this should be {right}; found {found}.",
        right=right if right != title else f"{title}, {_BOUNDS[error.keyword]} {limit:,}",
        found=shown(error.found),
    )


def _from(least: re.Match[str], most: float) -> str:
    """ "of 0 or more", or the 0 of "above 0", with the most that there may be."""
    return f"from {least[1]} to {most:,}" if least[1] else f" {least[2]} and up to {most:,}"


def _too_many(error: SchemaError, what: Expected) -> Iterator[Finding]:
    """A list or object with more entries than any pattern has."""
    limit = error.detail["limit"]
    if limit < _MANY:
        yield _wrong(OUT_OF_RANGE, error, what)
        return
    yield fault(
        OUT_OF_RANGE,
        pointer(*error.at),
        "there are {count} entries here; at most {limit} are possible.",
        "Is this the right file?",
        count=f"{len(error.found):,}",
        limit=f"{limit:,}",
    )


def _twice(error: SchemaError, what: Expected) -> Iterator[Finding]:
    double = [entry for k, entry in enumerate(error.found) if entry in error.found[:k]]
    yield fault(
        OUT_OF_RANGE,
        pointer(*error.at),
        "this should be {right}; {double} stands in it more than once.",
        "Keep one of them.",
        right=what.title,
        double=shown(double[0]),
    )


def _unknown(error: SchemaError, what: Expected) -> Iterator[Finding]:
    for key in unknown_keys(error):
        suggestion = suggested(error, key)
        yield fault(
            UNKNOWN_KEY,
            pointer(*error.at, key),
            '"{key}" is no key of {thing}.',
            'Did you mean "{suggestion}"?'
            if suggestion
            else "A key of your own begins with x-. Known here: {known}.",
            said_of=pointer(*error.at),
            key=key,
            suggestion=suggestion,
            thing=what.title,
            known=listed(what.keys),
        )


def _missing(error: SchemaError, what: Expected) -> Iterator[Finding]:
    key = error.detail["property"]
    of_key = what.keys.get(key, {})
    example = example_of(of_key)
    yield fault(
        MISSING_KEY,
        pointer(*error.at),
        '"{key}" is missing: {meaning}',
        'For example "{key}": {example}.' if example else 'Write "{key}".',
        key=key,
        meaning=of_key.get("description", "it is needed here."),
        example=example,
    )


def _word(error: SchemaError, what: Expected) -> Iterator[Finding]:
    words = [str(word) for word in error.detail["options"]]
    suggestion = nearest(error.found, words) if isinstance(error.found, str) else None
    yield fault(
        UNKNOWN_WORD,
        pointer(*error.at),
        "this should be {words}; found {found}.",
        'Did you mean "{suggestion}"?' if suggestion else "",
        words=listed((f'"{word}"' for word in words), "or"),
        found=shown(error.found),
        suggestion=suggestion,
    )


def _name(error: SchemaError, what: Expected) -> Iterator[Finding]:
    key = error.detail["error"].instance
    yield fault(
        BAD_NAME,
        pointer(*error.at, key),
        'the name should be {right}; found "{key}".',
        "Give it another name.",
        said_of=pointer(*error.at),
        key=key,
        right=what.holding[-1]["title"],
    )


def _contradiction(error: SchemaError, what: Expected) -> Iterator[Finding]:
    yield fault(
        CONTRADICTION,
        pointer(*error.at),
        "this should be {reason}.",
        "Keep only one of the two.",
        reason=what.holding[-1]["title"],
    )


_BOUNDS = {
    "maximum": "at most",
    "exclusiveMaximum": "below",
    "minimum": "at least",
    "exclusiveMinimum": "above",
}
_MANY = 10
"""Limits of a list below this say how it is made; the others only guard against what is no pattern."""

_SPECIAL: Mapping[str, Callable[[SchemaError, Expected], Iterator[Finding]]] = {
    "additionalProperties": _unknown,
    "required": _missing,
    "enum": _word,
    "propertyNames": _name,
    "not": _contradiction,
    **dict.fromkeys(_BOUNDS, _bound),
    "maxItems": _too_many,
    "maxProperties": _too_many,
    "uniqueItems": _twice,
}
