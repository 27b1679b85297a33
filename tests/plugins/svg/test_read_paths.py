"""The grammar of path data, and where each command goes (SVG 2, chapter 9)."""

from __future__ import annotations

import pytest
from svg_files import beyond_info, drawing, nodes, strokes

from notchwork.geometry import bounds
from notchwork_plugins.svg.grammar import sound_part


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        ("M1 2 L3 4", [1 + 2j, 3 + 4j]),
        ("M1 2 3 4", [1 + 2j, 3 + 4j]),
        ("m1 2 3 4", [1 + 2j, 4 + 6j]),
        ("M10 10 H20 V30", [10 + 10j, 20 + 10j, 20 + 30j]),
        ("M10 10 h20 v30 h1 2", [10 + 10j, 30 + 10j, 30 + 40j, 31 + 40j, 33 + 40j]),
        ("M10 10 L20 10 20 20 Z", [10 + 10j, 20 + 10j, 20 + 20j, 10 + 10j]),
        ("M1-2L.5.5-1e1+2", [1 - 2j, 0.5 + 0.5j, -10 + 2j]),
        ("M1,2 , 3 , 4", [1 + 2j, 3 + 4j]),
        ("M 1,2\n\tL 3,4", [1 + 2j, 3 + 4j]),
        ("M10 10 V40 h5 H1 v1", [10 + 10j, 10 + 40j, 15 + 40j, 1 + 40j, 1 + 41j]),
    ],
)
def test_straight_commands(data: str, expected: list[complex]) -> None:
    found = strokes(f'<path d="{data}"/>')
    assert [nodes(stroke) for stroke in found] == [expected]


def test_a_closing_goes_back_and_what_follows_starts_there() -> None:
    first, second = strokes('<path d="m 10,10 5,0 0,5 z l -5,0 m 1,1 2,2"/>')[:2]
    assert first.closed
    assert nodes(first) == [10 + 10j, 15 + 10j, 15 + 15j, 10 + 10j]
    assert not second.closed
    assert nodes(second) == [10 + 10j, 5 + 10j]


def test_a_relative_move_after_a_closing_counts_from_the_start_of_what_was_closed() -> None:
    found = strokes('<path d="m 10,10 h 5 v 5 z m 20,0 h 5 m 1,1 v 2"/>')
    assert [nodes(stroke)[0] for stroke in found] == [10 + 10j, 30 + 10j, 36 + 11j]


def test_closings_that_meet_their_start_add_nothing() -> None:
    [stroke] = strokes('<path d="M0 0 H10 V10 H0 V0 Z"/>')
    assert len(stroke.cubics) == 4
    [stroke] = strokes('<path d="M0 0 H10 V10 Z Z"/>')
    assert len(stroke.cubics) == 3


def test_smooth_curves_mirror_only_handles_of_their_own_kind() -> None:
    [stroke] = strokes('<path d="M0 0 C0 10 10 10 10 0 S20 -10 20 0"/>')
    assert stroke.cubics[1, 1] == pytest.approx((10 - 10j).conjugate())
    [stroke] = strokes('<path d="M0 0 Q5 10 10 0 S20 -10 20 0"/>')
    assert stroke.cubics[1, 1] == pytest.approx(10)
    [stroke] = strokes('<path d="M0 0 Q5 9 10 0 T20 0 t10 0"/>')
    handles = 1.5 * stroke.cubics[:, 1] - 0.5 * stroke.cubics[:, 0]
    assert handles == pytest.approx([5 - 9j, 15 + 9j, 25 - 9j])
    [stroke] = strokes('<path d="M0 0 C0 10 10 10 10 0 T20 0"/>')
    assert stroke.cubics[1, 1] == pytest.approx(10 + 10 / 3 - 10 / 3)


def test_flags_of_arcs_may_stick_together() -> None:
    apart = strokes('<path d="M0 0 a 5 5 30 0 1 10 4 5 5 30 1 0 3 3"/>')[0]
    stuck = strokes('<path d="M0 0a5 5 30 0110 4 5 5 30 103 3"/>')[0]
    assert nodes(stuck) == nodes(apart)
    assert nodes(apart)[-1] == 13 + 7j


def test_arcs_that_cannot_be() -> None:
    assert strokes('<path d="M1 1 A5 5 0 1 1 1 1"/>') == []
    assert nodes(strokes('<path d="M0 0 A0 5 0 1 1 9 0"/>')[0]) == [0, 9]
    # Radii that do not reach are scaled up: half a circle over the chord.
    [stroke] = strokes('<path d="M0 0 A1 1 0 0 1 10 0"/>')
    low, high = bounds(stroke.cubics)
    assert (low, high) == (pytest.approx(0, abs=1e-3), pytest.approx(10 + 5j, abs=1e-3))


@pytest.mark.parametrize(
    ("data", "offset", "kept"),
    [
        ("L5 5", 0, 0),
        ("M0 0 L10 0 L20#5", 11, 1),
        ("M0 0 L10 0 20", 11, 1),
        ("M0 0 A5 5 0 2 1 9 9", 5, 0),
        ("M0 0 A5 5 0 -1 1 9 9", 5, 0),
        ("M0 0 L \N{MINUS SIGN}10 5", 5, 0),
        ("M0 0 L 1 2 L nan 5", 11, 1),
        ("M0 0 L 1 2 L inf 5", 11, 1),
        ("M0 0 L 1 2 L 1_0 5", 11, 1),
        ("M0 0 L 1 2 L \N{ARABIC-INDIC DIGIT ONE} 5", 11, 1),
        ("M0 0 L 1 2 z 5", 13, 2),
        ("M0 0 C 1 2 3 4 5", 5, 0),
        ("M0 0 h 1,,2", 8, 1),
        ("M0 0 H5 X", 8, 1),
        ("M", 0, 0),
    ],
)
def test_a_fault_is_told_with_its_place_and_what_stands_before_it_is_read(
    data: str, offset: int, kept: int
) -> None:
    _, fault = sound_part(data)
    assert fault is not None
    assert fault.offset == offset
    body = f'<path id="hem" d="{data}"/>'
    assert sum(len(stroke.cubics) for stroke in strokes(body)) == kept
    [(rule, text)] = beyond_info(body)
    assert rule == "svg/broken-path"
    assert text.startswith(f"path “hem” (line 1) is broken after {offset} characters: ")


def test_a_lone_move_and_an_empty_path_are_nothing() -> None:
    for data in ("", "  ", "M5 5", "M5 5 M6 6", "M5 5 z"):
        body = f'<path d="{data}"/>'
        assert strokes(body) == []
        assert beyond_info(body) == []


def test_a_path_without_extent_is_a_point() -> None:
    [group] = drawing('<path id="eye" d="M5 6 h0 h0"/>').groups
    [dot] = group.dots
    assert (dot.at, dot.facts) == (5 - 6j, {"name": "eye"})


def test_repeated_points_are_dropped() -> None:
    [stroke] = strokes('<path d="M0 0 L10 0 L10 0 L10 10"/>')
    assert nodes(stroke) == [0, 10, 10 + 10j]


def test_one_wild_number_costs_its_path_and_no_other() -> None:
    body = '<path id="wild" d="M0 0 l 1e308 5 l -1e308 -5"/><path d="m 1 1 l 2 2"/>'
    assert [nodes(stroke) for stroke in strokes(body)] == [[1 + 1j, 3 + 3j]]
    [(rule, text)] = beyond_info(body)
    assert rule == "svg/out-of-bounds"
    assert "path “wild”" in text
