from __future__ import annotations

import copy
import json
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.document import UnwritablePattern, read_pattern, write_pattern
from notchwork.document.codec import DECIMALS
from notchwork.document.layout import laid_out
from notchwork.model import MM_PER_UNIT, Mark, Node, Pattern, Piece, Seam, Side, Span, Unit


def read(document: Any) -> Pattern:
    result = read_pattern(json.dumps(document).encode(), "x")
    assert result.pattern is not None, result.faults
    return result.pattern


@pytest.mark.parametrize("case", ["ferry_bytes", "every_key_bytes"])
def test_writing_what_was_read_is_a_fixed_point(case: str, request: pytest.FixtureRequest) -> None:
    data: bytes = request.getfixturevalue(case)
    result = read_pattern(data, case)
    assert result.pattern is not None
    assert result.faults == ()
    written = write_pattern(result.pattern)
    assert json.loads(written) == json.loads(data)
    again = read_pattern(written, case)
    assert again.pattern == result.pattern
    assert write_pattern(again.pattern) == written


def test_the_written_smock_reads_well(ferry_bytes: bytes) -> None:
    pattern = read_pattern(ferry_bytes, "x").pattern
    assert pattern is not None
    lines = write_pattern(pattern).decode().splitlines()
    assert '        {"at": [0, 540], "out": [45, 540], "edge": "neck"},' in lines
    assert '      "notches": {"pitch": {"edge": "armhole", "at": ["side", 90]}},' in lines
    assert '    "side": {"sides": [["front.side"], ["back.side"]]},' in lines
    assert max(map(len, lines)) <= 120


@pytest.mark.parametrize(
    ("section", "value"),
    [
        ("seams", {}),
        ("accepted", []),
        ("unit", "mm"),
        ("materials", {"a": {"kind": "cloth", "one_way": False, "x-kept": {"b": [1, None, 1e-9, "ü"]}}}),
        (
            "seams",
            {
                "s": {
                    "sides": [[{"edge": "p.a"}], {"spans": ["p.b"]}],
                    "times": 1,
                    "meet": [],
                    "closed": False,
                }
            },
        ),
        (
            "seams",
            {
                "s": {"sides": [["p.a"], ["p.b"]], "over": ["t"]},
                "t": {"sides": [["p.c"], ["p.b"]], "over": "s"},
            },
        ),
        ("tolerances", {"seams/unequal-length": [0.5, 1.6, 3.2]}),
    ],
)
def test_what_need_not_be_written_is_kept_when_it_was(section: str, value: Any) -> None:
    corners = [{"at": [0, 0], "edge": "a"}, {"at": [9, 0], "edge": "b"}, {"at": [0, 9], "edge": "c"}]
    document = {"notchwork": "1.0", "pieces": {"p": {"outline": corners}}, section: value}
    written = json.loads(write_pattern(read(document)))
    assert written == document
    assert list(written) == [
        key for key in ("notchwork", "unit", "materials", "pieces", "seams") if key in document
    ] + [key for key in ("tolerances", "accepted") if key in document]


def test_what_is_left_away_is_not_written() -> None:
    pattern = Pattern(
        version="1.0",
        pieces={"p": Piece(outline=(Node(0j, edge="a"), Node(9 + 0j, edge="b"), Node(9j, edge="c")))},
        seams={"s": Seam(sides=(Side((Span("p.a"),)), Side((Span("p.c", mirrored=True),))))},
    )
    assert json.loads(write_pattern(pattern)) == {
        "notchwork": "1.0",
        "pieces": {
            "p": {
                "outline": [
                    {"at": [0, 0], "edge": "a"},
                    {"at": [9, 0], "edge": "b"},
                    {"at": [0, 9], "edge": "c"},
                ]
            }
        },
        "seams": {"s": {"sides": [["p.a"], [{"edge": "p.c", "mirrored": True}]]}},
    }


def test_a_piece_that_is_like_another_keeps_what_it_takes_away(ferry: dict[str, Any]) -> None:
    lining = {
        "like": "front",
        "edges": {"hem": None, "side": {"allowance": 10}},
        "grainline": None,
        "notches": None,
    }
    ferry["pieces"]["lining"] = lining
    pattern = read(ferry)
    assert pattern.pieces["lining"].removed == {"grainline", "notches"}
    assert json.loads(write_pattern(pattern))["pieces"]["lining"] == lining


@given(
    unit=st.sampled_from(["mm", "cm", "in"]),
    counts=st.lists(st.integers(-(10**9), 10**9), min_size=2, max_size=12).filter(lambda c: len(c) % 2 == 0),
)
@settings(max_examples=150, deadline=None)
def test_numbers_with_no_more_decimals_than_are_written_come_back_unchanged(
    unit: Unit, counts: list[int]
) -> None:
    numbers = [count / 10 ** DECIMALS[unit] for count in counts]
    points = [list(pair) for pair in zip(numbers[::2], numbers[1::2], strict=True)]
    document = {
        "notchwork": "1.0",
        "unit": unit,
        "pieces": {"p": {"strip": {"width": 1, "length": abs(numbers[0]) + 1}, "marks": {}}},
    }
    document["pieces"]["p"]["marks"] = {f"m{k}": {"at": point} for k, point in enumerate(points)}  # type: ignore[index]
    document["pieces"]["p"]["strip"]["length"] = abs(numbers[0]) or 1  # type: ignore[index]
    pattern = read(document)
    assert pattern.pieces["p"].marks["m0"].at.real == numbers[0] * MM_PER_UNIT[unit]  # type: ignore[union-attr]
    written = write_pattern(pattern)
    assert json.loads(written) == document
    assert b".0," not in written
    assert b"-0," not in written
    assert b"e" not in written.partition(b'"marks"')[2].replace(b'"piece', b"")


@given(number=st.floats(-1e6, 1e6), unit=st.sampled_from(["mm", "cm", "in"]))
@settings(max_examples=150, deadline=None)
def test_any_number_is_written_to_a_ten_thousandth_of_a_mm_and_then_stays(number: float, unit: Unit) -> None:
    pattern = Pattern(version="1.0", unit=unit, pieces={"p": Piece(marks={"m": Mark(complex(number, 0))})})
    once = write_pattern(pattern)
    at = json.loads(once)["pieces"]["p"]["marks"]["m"]["at"][0]
    assert math.isclose(at * MM_PER_UNIT[unit], number, abs_tol=0.5e-4 + 1e-9, rel_tol=1e-12)
    moved = replace(pattern, pieces={"p": Piece(marks={"m": Mark(complex(at * MM_PER_UNIT[unit], 0))})})
    assert write_pattern(moved) == once


@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_any_part_of_the_long_case_that_stands_alone_is_a_fixed_point(
    data: st.DataObject, every_key_bytes: bytes
) -> None:
    document = json.loads(every_key_bytes)
    for _ in range(data.draw(st.integers(1, 12))):
        holder, key = data.draw(st.sampled_from(sorted(_places(document), key=repr)))
        inner = _inner(document, holder)
        if isinstance(inner, dict):
            inner.pop(key, None)
    result = read_pattern(json.dumps(document).encode(), "x") if "notchwork" in document else None
    if result is None or result.pattern is None:
        return
    written = write_pattern(result.pattern)
    assert json.loads(written) == document
    assert write_pattern(read(json.loads(written))) == written


def _places(value: Any, way: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any]]:
    for key, entry in (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    ):
        if isinstance(value, dict):
            yield way, key
        yield from _places(entry, (*way, key))


def _inner(document: Any, way: tuple[Any, ...]) -> Any:
    for part in way:
        document = document[part]
    return document


@pytest.mark.parametrize("bad", [complex(math.nan, 0), complex(0, math.inf)])
def test_a_number_that_is_not_finite_is_never_written(bad: complex) -> None:
    pattern = Pattern(version="1.0", title="Mine", pieces={"p": Piece(marks={"m": Mark(bad)})})
    with pytest.raises(UnwritablePattern) as caught:
        write_pattern(pattern)
    assert caught.value.what == "Mine"


def test_half_a_character_is_never_written() -> None:
    with pytest.raises(UnwritablePattern):
        write_pattern(Pattern(version="1.0", title="\ud800"))


def test_a_document_is_not_changed_by_reading_it_twice(ferry: dict[str, Any]) -> None:
    before = copy.deepcopy(ferry)
    assert read(ferry) == read(ferry)
    assert ferry == before


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ({}, "{}"),
        ([], "[]"),
        ({"a": [1, 2.5, True, None, "ä\n"]}, '{\n  "a": [1, 2.5, true, null, "ä\\n"]\n}'),
        ({"a": 1e-05}, '{\n  "a": 0.00001\n}'),
        ({"a": 1e-9}, '{\n  "a": 1e-09\n}'),
        ({"a": [{"b": 1}, {"b": 2}]}, '{\n  "a": [\n    {"b": 1},\n    {"b": 2}\n  ]\n}'),
    ],
)
def test_layout(value: Any, text: str) -> None:
    assert laid_out(value) == text
    assert json.loads(text) == value


def test_a_pattern_made_by_hand_states_the_version() -> None:
    assert Pattern().version == "1.0"
    assert json.loads(write_pattern(Pattern())) == {"notchwork": "1.0"}
