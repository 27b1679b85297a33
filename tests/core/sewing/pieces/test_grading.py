"""The grading law, held against what it promises of angles, straight edges and circles."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import lengths
from notchwork.model import Node
from notchwork.sewing.pieces.grading import cubics_of, grade_line, shifts_by_size

SIZES = ("S", "M", "L")
coordinate = st.floats(-300, 300).map(lambda x: round(x, 3))
point = st.builds(complex, coordinate, coordinate)


def shifts(**rules: dict[str, complex]) -> dict[str, np.ndarray]:
    return shifts_by_size(rules, SIZES)


def test_a_node_without_a_rule_stays_where_it_is() -> None:
    nodes = [Node(at=0j, edge="a"), Node(at=100 + 0j, edge="b", grade="r"), Node(at=100j, edge="c")]
    graded = grade_line(nodes, True, shifts(r={"S": -5 + 0j, "L": 5 + 0j}), 3)
    assert graded[:, 0, 0] == pytest.approx([0, 0, 0])
    assert graded[:, 1, 0] == pytest.approx([95, 100, 105])
    assert graded[:, 2, 0] == pytest.approx([100j, 100j, 100j])


@given(a=point, b=point, inner=point, moved=point)
@settings(max_examples=60)
def test_a_node_inside_an_edge_follows_the_turn_and_scale_of_its_corners(
    a: complex, b: complex, inner: complex, moved: complex
) -> None:
    if abs(b - a) < 1:
        return
    nodes = [Node(at=a, edge="one"), Node(at=inner), Node(at=b, edge="two", grade="r")]
    graded = grade_line(nodes, True, shifts(r={"S": 0j, "L": moved}), 3)
    # The triangle a, inner, b keeps its shape: its complex ratio is the same in every size.
    shape = (inner - a) / (b - a)
    now = graded[2, 1, 0] - graded[2, 0, 0]
    assert now == pytest.approx(shape * (graded[2, 2, 0] - graded[2, 0, 0]), abs=1e-6)


@given(turn=st.floats(-0.3, 0.3), stretch=st.floats(0.8, 1.3))
@settings(max_examples=40)
def test_the_angle_between_a_straight_edge_and_a_curve_is_the_same_in_every_size(
    turn: float, stretch: float
) -> None:
    """A handle at a corner turns with the straight segment on its other side."""
    corner, far = 200 + 590j, 80 + 620j
    shift = far + (corner - far) * stretch * cmath.exp(1j * turn) - corner
    nodes = [
        Node(at=far, edge="shoulder"),
        Node(at=corner, out=185 + 530j, edge="armhole", grade="tip"),
        Node(at=250 + 400j, into=190 + 400j, edge="side"),
    ]
    graded = grade_line(nodes, True, shifts(tip={"S": 0j, "L": shift}), 3)

    def angle(size: int) -> float:
        shoulder = graded[size, 0, 0] - graded[size, 0, 3]
        armhole = graded[size, 1, 1] - graded[size, 1, 0]
        return cmath.phase(armhole / shoulder)

    assert angle(2) == pytest.approx(angle(1), abs=1e-9)


def test_a_circle_stays_a_circle_when_its_ends_move_by_one_shift_and_scale() -> None:
    """A quarter circle as a cubic: handles at 4/3 (sqrt 2 - 1) of the radius, error below 0.03 % of it."""
    k = 4 / 3 * (math.sqrt(2) - 1)
    r = 120.0
    nodes = [
        Node(at=complex(r, 0), out=complex(r, k * r), edge="waist", grade="x"),
        Node(at=complex(0, r), into=complex(k * r, r), edge="center", grade="y"),
        Node(at=0j, edge="side"),
    ]
    graded = grade_line(nodes, True, shifts(x={"S": 0j, "L": 12 + 0j}, y={"S": 0j, "L": 12j}), 3)
    assert lengths(graded[2, :1])[0] == pytest.approx(lengths(graded[1, :1])[0] * (r + 12) / r, rel=1e-12)


def test_a_straight_segment_with_handles_on_its_chord_stays_straight() -> None:
    nodes = [
        Node(at=0j, out=30 + 0j, edge="a"),
        Node(at=100 + 0j, into=70 + 0j, edge="b", grade="r"),
        Node(at=50 + 80j, edge="c"),
    ]
    graded = grade_line(nodes, True, shifts(r={"S": 0j, "L": 10 + 40j}), 3)
    a, out, into, b = graded[2, 0]
    assert abs(((out - a) / (b - a)).imag) < 1e-12
    assert abs(((into - a) / (b - a)).imag) < 1e-12


def test_without_rules_every_size_is_the_drawing() -> None:
    nodes = [Node(at=0j, edge="a"), Node(at=10 + 0j, edge="b"), Node(at=10j, edge="c")]
    assert np.array_equal(grade_line(nodes, True, {}, 2), np.stack([cubics_of(nodes, True)] * 2))
