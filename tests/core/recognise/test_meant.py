"""Drawings that say what their lines mean: nothing is guessed."""

from __future__ import annotations

import copy
from dataclasses import replace

import numpy as np
import pytest
from patterns import case, nest_of
from sketches import box, polyline

from notchwork.draw import draw_pattern
from notchwork.drawing import Drawing, Group, Stroke, Text
from notchwork.geometry import area, lines, reverse
from notchwork.recognise import Options, find_shapes, recognise


def test_an_outline_that_is_no_stitch_line_comes_back_as_what_it_is() -> None:
    document = copy.deepcopy(case("ferry_smock"))
    document["pieces"]["front"]["outline_is"] = "unknown"
    document["pieces"]["sleeve"]["outline_is"] = "cut_line"
    nest = nest_of(document)
    drawn = draw_pattern(nest)
    kinds = {shape.ident: shape.kind for shape in find_shapes(drawn).shapes if shape.size == "M"}
    assert kinds == {"front": None, "back": "stitch", "sleeve": "cut", "neck_binding": "stitch"}
    pieces = recognise(drawn).pattern.pieces
    assert {ident: piece.outline_is for ident, piece in pieces.items()} == {
        "front": "unknown",
        "back": None,
        "sleeve": "cut_line",
        "neck_binding": None,
    }


def meant(*strokes: Stroke) -> Drawing:
    return Drawing((Group("Back", strokes, facts={"piece": "back"}),))


def test_stitch_and_cut_lines_give_the_allowance_of_each_edge() -> None:
    stitch, cut = box(10, 15, 180, 70), box(0, 0, 200, 100)
    seen = find_shapes(meant(replace(stitch, meaning="stitch"), replace(cut, meaning="cut")))
    (shape,) = seen.shapes
    assert (shape.ident, shape.named, shape.kind) == ("back", True, "stitch")
    assert shape.allowances == pytest.approx((15.0, 10.0, 15.0, 10.0))


def test_a_cut_line_alone_is_one() -> None:
    (shape,) = find_shapes(meant(replace(box(0, 0, 200, 100), meaning="cut"))).shapes
    assert shape.kind == "cut"
    assert shape.allowances == (None,) * 4


def test_edges_in_any_order_and_direction_are_put_end_to_end_by_their_names() -> None:
    nodes = [0j, 100 + 0j, 100 + 60j, 60j]
    runs = [lines(np.array([nodes[k], nodes[(k + 1) % 4]])) for k in range(4)]
    strokes = [
        Stroke(runs[0], "stitch", facts={"edge": "hem"}),
        Stroke(runs[2], "stitch", facts={"edge": "top"}),
        Stroke(runs[1][::-1, ::-1], "stitch", facts={"edge": "side"}),
        Stroke(runs[3], "fold", facts={"edge": "center"}),
    ]
    (shape,) = find_shapes(meant(*strokes)).shapes
    assert shape.edges == ("hem", "side", "top", "center")
    assert shape.folds == frozenset({3})
    assert shape.allowances[3] == 0.0


def test_an_outline_that_does_not_close_is_told_with_its_gap_and_place() -> None:
    seen = find_shapes(meant(replace(polyline(0j, 100 + 0j, 100 + 60j, 60j, 5j), meaning="stitch")))
    assert seen.shapes == ()
    (told,) = [finding for finding in seen.findings if finding.rule.id == "recognised/outline-open"]
    assert told.values["gap"].mm == pytest.approx(5.0)  # type: ignore[attr-defined]
    assert told.place.point is not None


def test_images_of_what_is_drawn_are_left_out() -> None:
    stroke = replace(box(0, 0, 100, 60), meaning="stitch")
    image = replace(box(200, 0, 100, 60), meaning="stitch", facts={"copy": "1"})
    (shape,) = find_shapes(meant(stroke, image)).shapes
    assert shape.outline.cubics.real.max() == pytest.approx(100.0)


def test_a_line_without_a_size_holds_for_all() -> None:
    strokes = [
        Stroke(lines(np.array([0j, 100 + 0j])), "stitch", facts={"edge": "hem"}),
        *(
            Stroke(
                lines(np.array([100 + 0j, 100 + tall * 1j, 0j])),
                "stitch",
                facts={"edge": "side", "size": size},
            )
            for size, tall in (("S", 50.0), ("L", 70.0))
        ),
    ]
    made = replace(meant(*strokes), sizes=("S", "L"), base="S")
    shapes = find_shapes(made).shapes
    assert [shape.size for shape in shapes] == ["S", "L"]
    assert [shape.outline.cubics.imag.max() for shape in shapes] == pytest.approx([50.0, 70.0])


@pytest.mark.parametrize("turned", [False, True], ids=["counter-clockwise", "clockwise"])
def test_a_cut_line_is_moved_in_by_the_allowance_that_is_stated(turned: bool) -> None:
    cut = replace(box(0, 0, 200, 100), meaning="cut")
    drawn = meant(replace(cut, cubics=reverse(cut.cubics)) if turned else cut)
    (shape,) = find_shapes(drawn, Options(outline="cut", allowance=10.0)).shapes
    assert (shape.kind, shape.allowances) == ("stitch", (10.0,) * 4)
    assert abs(area(shape.outline.cubics)) == pytest.approx(180.0 * 80.0)
    assert np.sign(area(shape.outline.cubics)) == np.sign(area(drawn.groups[0].strokes[0].cubics))
    (as_sewn,) = find_shapes(drawn, Options(outline="stitch")).shapes
    assert (as_sewn.kind, abs(area(as_sewn.outline.cubics))) == ("stitch", pytest.approx(20000.0))
    (swallowed, *_) = find_shapes(drawn, Options(outline="cut", allowance=60.0)).findings
    assert (swallowed.rule.id, swallowed.place.piece) == ("recognised/stitch-line-lost", "back")


def test_a_fold_stays_where_it_is_when_the_cut_line_is_moved_in() -> None:
    corners = [0j, 100 + 0j, 100 + 60j, 60j, 0j]
    runs = [lines(np.array(corners[k : k + 2])) for k in range(4)]
    strokes = [
        *(Stroke(run, "cut", facts={"edge": ""}) for run in runs[:3]),
        Stroke(runs[3], "fold", facts={"edge": ""}),
    ]
    (shape,) = find_shapes(meant(*strokes), Options(outline="cut", allowance=10.0)).shapes
    assert shape.allowances == (10.0, 10.0, 10.0, 0.0)
    z = shape.outline.cubics[:, 0]
    assert (z.real.min(), z.real.max(), z.imag.min(), z.imag.max()) == pytest.approx((0.0, 90.0, 10.0, 50.0))


def test_an_edge_may_be_told_apart_without_a_name_where_the_line_runs_on() -> None:
    corners = [0j, 40 + 0j, 100 + 0j, 100 + 60j, 60j, 0j]
    strokes = [Stroke(lines(np.array(corners[k : k + 2])), "stitch", facts={"edge": ""}) for k in range(5)]
    (shape,) = find_shapes(meant(*strokes)).shapes
    assert shape.outline.corners == (0, 1, 2, 3, 4)
    assert shape.edges == (None,) * 5


@pytest.mark.parametrize(("drawn", "taken"), [(10.015, 10.0), (9.985, 10.0), (15.87, 15.875), (10.04, 10.04)])
def test_a_measured_allowance_is_the_round_one_that_it_is_nearest_to(drawn: float, taken: float) -> None:
    stitch, cut = box(drawn, drawn, 200, 100), box(0, 0, 200 + 2 * drawn, 100 + 2 * drawn)
    (shape,) = find_shapes(meant(replace(stitch, meaning="stitch"), replace(cut, meaning="cut"))).shapes
    assert shape.allowances == pytest.approx((taken,) * 4)


@pytest.mark.parametrize("lean", [0.5, 0.0, -0.1, -0.5])
def test_an_allowance_beside_a_bare_slanting_edge_is_measured_clear_of_their_corner(lean: float) -> None:
    """The hem is cut 20 mm below its stitch line; the sides, which lean out or in upward, have no allowance."""
    stitch = polyline(0j, 235 + 0j, 235 + 300 * lean + 300j, -300 * lean + 300j, closed=True)
    cut = polyline(
        20 * (lean - 1j), 235 - 20 * (lean + 1j), 235 + 300 * lean + 300j, -300 * lean + 300j, closed=True
    )
    (shape,) = find_shapes(meant(replace(stitch, meaning="stitch"), replace(cut, meaning="cut"))).shapes
    assert shape.allowances == pytest.approx((20.0, 0.0, 0.0, 0.0), abs=1e-3)


def test_words_on_a_piece_whose_name_is_stated_stay_notes() -> None:
    outline = replace(box(0, 0, 200, 100), meaning="stitch")
    words = Text(100 + 50j, "Kittiwake", 6.0, "note")
    named = Drawing((Group("back", (outline,), texts=(words,), facts={"piece": "back", "name": "Back"}),))
    piece = recognise(named).pattern.pieces["back"]
    assert (piece.name, piece.note) == ("Back", "Kittiwake")
