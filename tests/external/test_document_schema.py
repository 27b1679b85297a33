"""The open format against the reference implementation of JSON Schema 2020-12.

Source: python-jsonschema (jsonschema.readthedocs.io), which passes the official JSON-Schema-Test-Suite for draft 2020-12;
the metaschema is the one of json-schema.org that it ships.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.document import UnreadableDocument, read_pattern, write_pattern
from notchwork.document.validity import is_valid
from notchwork.findings import Severity
from notchwork_schemas import schema_text

CASES = Path(__file__).parents[1] / "cases"


@cache
def reference() -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(json.loads(schema_text("pattern-1")))


@cache
def document(case: str) -> Any:
    return json.loads((CASES / f"{case}.pattern.json").read_text(encoding="utf-8"))


def test_the_schema_is_valid_by_the_metaschema() -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(schema_text("pattern-1")))


@pytest.mark.parametrize("case", ["ferry_smock", "every_key"])
def test_the_cases_are_valid(case: str) -> None:
    assert list(reference().iter_errors(document(case))) == []
    assert is_valid(document(case))


def test_the_examples_of_the_schema_are_valid_where_they_stand() -> None:
    schema = json.loads(schema_text("pattern-1"))
    examples = list(_examples(schema))
    assert len(examples) > 200
    for stated, example in examples:
        checked = jsonschema.Draft202012Validator({"$defs": schema["$defs"], **stated})
        assert checked.is_valid(example), example


def _examples(stated: Any) -> Iterator[tuple[dict[str, Any], Any]]:
    if isinstance(stated, dict):
        if "description" in stated:
            yield from ((stated, example) for example in stated.get("examples", ()))
        for value in stated.values():
            yield from _examples(value)
    elif isinstance(stated, list):
        for value in stated:
            yield from _examples(value)


SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 3),
    st.sampled_from([1e7, -1e7, 0.5, 2.0, 10**25]),
    st.sampled_from(
        [
            "",
            "front",
            "front.side",
            "a.b.c",
            "x-y",
            "50%",
            "50%\n",
            "101%",
            "hem",
            "2025-03-14",
            "S",
            "#1",
            "٣%",
        ]
    ),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["S", "at", "kind", "x-a", "edge"]), inner)
    ),
    max_leaves=5,
)


def _places(value: Any, way: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    for key, entry in (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    ):
        yield (*way, key)
        yield from _places(entry, (*way, key))


@cache
def places(case: str) -> list[tuple[Any, ...]]:
    return list(_places(document(case)))


@given(data=st.data(), case=st.sampled_from(["ferry_smock", "every_key"]))
@settings(max_examples=150, deadline=None)
def test_damaged_documents_are_judged_alike_and_always_told(data: st.DataObject, case: str) -> None:
    damaged = copy.deepcopy(document(case))
    *holders, last = data.draw(st.sampled_from(places(case)))
    holder = damaged
    for part in holders:
        holder = holder[part]
    action = data.draw(st.sampled_from(["set", "drop", "add"]))
    if action == "set":
        holder[last] = data.draw(VALUES)
    elif action == "drop":
        del holder[last]
    elif isinstance(holder, dict):
        key = data.draw(st.sampled_from(["x-a", "allowence", "at", "name", "edge", "note", "in", "a.b", ""]))
        holder[key] = data.draw(VALUES)
    else:
        holder.insert(last, data.draw(VALUES))

    valid = reference().is_valid(damaged)
    assert is_valid(damaged) == valid
    try:
        result = read_pattern(json.dumps(damaged).encode(), "x")
    except UnreadableDocument:
        assert not valid or 10**25 in _scalars(damaged)
        return
    errors = [fault for fault in result.faults if fault.rule.grade is Severity.ERROR]
    assert (result.pattern is None) == bool(errors)
    assert valid or errors
    for fault in result.faults:
        assert result.locate(fault.place.pointer or "") is not None
    if result.pattern is not None:
        assert json.loads(write_pattern(result.pattern)) == damaged


def _scalars(value: Any) -> list[Any]:
    if isinstance(value, (dict, list)):
        inner = value.values() if isinstance(value, dict) else value
        return [scalar for entry in inner for scalar in _scalars(entry)]
    return [value]
