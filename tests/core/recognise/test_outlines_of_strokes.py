"""Strokes become outlines: cut where they meet, gaps mended, faces, corners; what stands alone is left as it is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sketches import box, drawing, layers, polyline, words

from notchwork.drawing import Drawing, Group, Look, Stroke
from notchwork.geometry import area, circle, lengths, lines, reverse
from notchwork.recognise import Options, Seen, find_shapes


def ids(seen: Seen) -> list[str]:
    return [finding.rule.id for finding in seen.findings]


def sizes(seen: Seen) -> list[int]:
    return sorted(round(abs(area(shape.outline.cubics))) for shape in seen.shapes)


def test_four_open_strokes_are_one_outline_with_an_edge_each():
    strokes = [
        polyline(0j, 200 + 0j),
        polyline(200 + 0j, 200 + 100j),
        polyline(0 + 100j, 200 + 100j),
        polyline(0 + 100j, 0j),
    ]
    (shape,) = find_shapes(drawing(*strokes)).shapes
    assert area(shape.outline.cubics) == pytest.approx(20000)
    assert len(shape.outline.corners) == 4
    assert sorted(shape.outline.sources.tolist()) == [0, 1, 2, 3]


@pytest.mark.parametrize(("gap", "told"), [(0.02, False), (0.08, True), (0.4, True)])
def test_gaps_up_to_the_tolerance_are_mended_and_told_from_a_twentieth_of_a_mm_on(gap: float, told: bool):
    strokes = [polyline(0j, 200 + 0j, 200 + 100j), polyline(200 + (100 + gap) * 1j, 0 + 100j, 0j)]
    seen = find_shapes(drawing(*strokes))
    assert len(seen.shapes) == 1
    assert ("recognised/gap-closed" in ids(seen)) is told


def test_a_gap_beyond_the_tolerance_is_no_outline_and_is_told_with_its_width():
    strokes = [polyline(0j, 200 + 0j, 200 + 100j, 100j, 9.9j)]
    seen = find_shapes(drawing(*strokes))
    assert seen.shapes == ()
    assert "recognised/outline-open" in ids(seen)
    assert len(find_shapes(drawing(*strokes), Options(tolerance=10.0)).shapes) == 1


def test_a_cutting_line_drawn_once_serves_the_neighbour_on_its_own_layer():
    first = [
        polyline(0j, 100 + 0j),
        polyline(100 + 0j, 100 + 80j),
        polyline(100 + 80j, 80j),
        polyline(80j, 0j),
    ]
    second = [polyline(100 + 0j, 220 + 0j, 220 + 80j, 100 + 80j)]
    seen = find_shapes(layers(**{"part 1": first, "part 2": second}))
    assert {shape.ident for shape in seen.shapes} == {"part 1", "part 2"}
    assert sizes(seen) == [8000, 9600]


def test_a_stroke_that_ends_within_another_cuts_it_there():
    strokes = [
        polyline(0j, 300 + 0j),
        polyline(300 + 0j, 300 + 100j),
        polyline(300 + 100j, 0 + 100j),
        polyline(0 + 100j, 0j),
    ]
    other = [polyline(100 + 0.2j, 100 - 60j, 250 - 60j, 250 - 0.3j)]
    seen = find_shapes(layers(one=strokes, two=other))
    assert sorted(sizes(seen)) == pytest.approx([9000, 30000], abs=60)


def test_the_space_between_neighbours_is_no_piece():
    # Two bows of neighbours in a lay enclose a lens that belongs to neither.
    left = [
        polyline(0j, 100 + 0j),
        Stroke(np.array([[100 + 0j, 70 + 30j, 70 + 70j, 100 + 100j]]), look=Look()),
        polyline(100 + 100j, 100j, 0j),
    ]
    right = [
        polyline(100 + 0j, 200 + 0j, 200 + 100j, 100 + 100j),
        Stroke(np.array([[100 + 100j, 130 + 70j, 130 + 30j, 100 + 0j]]), look=Look()),
    ]
    seen = find_shapes(layers(left=left, right=right))
    assert len(seen.shapes) == 2
    assert {shape.ident for shape in seen.shapes} == {"left", "right"}


def test_inner_lines_of_the_same_layer_do_not_cut_a_piece():
    strokes = [
        polyline(0j, 100 + 0j),
        polyline(100 + 0j, 100 + 80j),
        polyline(100 + 80j, 80j),
        polyline(80j, 0j),
        polyline(50 + 0j, 50 + 80j),
        polyline(0 + 40j, 100 + 40j),
    ]
    (shape,) = find_shapes(drawing(*strokes)).shapes
    assert area(shape.outline.cubics) == pytest.approx(8000)


def test_strokes_drawn_twice_count_once_and_a_short_one_on_an_edge_stays():
    tick = polyline(60 + 0j, 68 + 0j)
    strokes = [
        polyline(0j, 200 + 0j),
        polyline(200 + 0.1j, 0.1j),
        polyline(200 + 0j, 200 + 90j, 90j, 0j),
        tick,
    ]
    (shape,) = find_shapes(drawing(*strokes)).shapes
    assert area(shape.outline.cubics) == pytest.approx(18000, rel=0.01)
    assert any(float(lengths(stroke.cubics).sum()) == pytest.approx(8.0, abs=0.5) for stroke in shape.strokes)


def test_closed_outlines_drawn_twice_count_once_and_this_is_told():
    seen = find_shapes(drawing(box(0, 0, 200, 100), box(0, 0, 200, 100)))
    assert len(seen.shapes) == 1
    assert "recognised/stroke-doubled" in ids(seen)


def test_a_step_below_the_tolerance_makes_no_corner():
    stepped = polyline(0j, 100 + 0j, 100 + 0.3j, 200 + 0.3j, 200 + 100j, 100j, closed=True)
    seen = find_shapes(drawing(stepped))
    assert len(seen.shapes[0].outline.corners) == 4
    assert "recognised/step-straightened" in ids(seen)


def test_fine_polylines_are_not_straightened():
    ring = circle(0j, 30.0)[:, 0]
    fine = np.concatenate([np.linspace(a, b, 30)[:-1] for a, b in zip(ring, np.roll(ring, -1), strict=True)])
    (shape,) = find_shapes(drawing(Stroke(lines(fine, closed=True), None, True))).shapes
    assert len(shape.outline.cubics) == len(fine)


@pytest.mark.parametrize(("degrees", "corners"), [(15.0, 4), (25.0, 5)])
def test_corners_are_breaks_of_more_than_twenty_degrees(degrees: float, corners: int):
    rise = 100 * np.tan(np.radians(degrees / 2))
    bent = polyline(0j, 200 + 0j, 200 + 90j, complex(100, 90 + rise), 90j, closed=True)
    (shape,) = find_shapes(drawing(bent)).shapes
    assert len(shape.outline.corners) == corners


def test_overlapping_rings_of_open_strokes_stay_apart():
    def half_pair(shift: complex) -> list[Stroke]:
        run = (
            np.array([[0j, 20 + 60j, 80 + 60j, 100 + 0j], [100 + 0j, 100 + 0j, 100 - 50j, 100 - 50j]]) + shift
        )
        back = np.array([[100 - 50j, 60 - 90j, 40 - 90j, 0 - 50j], [-50j, -50j, 0j, 0j]]) + shift
        return [Stroke(run, look=Look()), Stroke(back, look=Look())]

    seen = find_shapes(drawing(*half_pair(0j), *half_pair(60 + 20j), texts=[words(0, -200, "two yokes")]))
    first, second = seen.shapes
    assert area(first.outline.cubics) == pytest.approx(area(second.outline.cubics))


@settings(max_examples=20, deadline=None)
@given(
    st.lists(st.floats(40, 120), min_size=4, max_size=9),
    st.lists(st.floats(-0.3, 0.3), min_size=9, max_size=9),
    st.booleans(),
)
def test_a_closed_stroke_that_stands_alone_is_taken_exactly(
    radii: list[float], bends: list[float], turned: bool
):
    nodes = np.array(radii) * np.exp(2j * np.pi * np.arange(len(radii)) / len(radii)) + 500
    ahead = np.roll(nodes, -1)
    chord = ahead - nodes
    bow = 1j * np.array(bends[: len(radii)])
    cubics = np.stack([nodes, nodes + chord * (1 / 3 + bow), ahead - chord * (1 / 3 - bow), ahead], axis=1)
    drawn = reverse(cubics) if turned else cubics
    (shape,) = find_shapes(drawing(Stroke(drawn, None, True))).shapes
    assert len(shape.outline.cubics) == len(cubics)
    for row in shape.outline.cubics:
        assert np.abs(cubics - row).max(axis=1).min() < 1e-9


def test_strokes_in_groups_of_a_drawing_with_a_shift_lie_where_they_are_shown():
    group = Group("Back", (box(0, 0, 100, 50),), shift=300 + 10j)
    (shape,) = find_shapes(Drawing((group,))).shapes
    assert shape.outline.cubics.real.min() == pytest.approx(300)
    assert shape.ident == "Back"
    assert shape.named


def test_numbers_of_strokes_count_over_all_groups():
    first, second = Group("a", (box(0, 0, 100, 50), box(0, 90, 100, 50))), Group("b", (box(200, 0, 90, 90),))
    seen = find_shapes(Drawing((first, second)))
    assert [set(shape.outline.sources.tolist()) for shape in seen.shapes] == [{0}, {1}, {2}]


def test_pieces_of_one_group_are_told_apart_by_number():
    seen = find_shapes(drawing(box(0, 0, 100, 50), box(0, 90, 100, 50)))
    assert len({shape.ident for shape in seen.shapes}) == 2
    assert not any(shape.named for shape in seen.shapes)


def test_a_drawing_with_meanings_beside_strokes_without_gives_both():
    stroke = replace(box(0, 0, 100, 50), meaning="stitch")
    seen = find_shapes(Drawing((Group("known", (stroke,)), Group("plain", (box(300, 0, 90, 60),)))))
    assert [(shape.ident, shape.kind) for shape in seen.shapes] == [("known", "stitch"), ("plain", None)]
