"""Notches, darts, grain, folds, marks and lines among the strokes of a piece."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from by_hand import box, outline, read, shape, stroke, text, told

from notchwork.drawing import Dot, Look, Stroke
from notchwork.geometry import circle, lengths, lines
from notchwork.model import Piece
from notchwork.sewing import Nest


def piece(*strokes: Stroke, **more: object) -> Piece:
    [found] = read(shape(box(300, 600), strokes=strokes, **more)).pattern.pieces.values()
    return found


def feet(*strokes: Stroke) -> list[float]:
    """Where the feet of the only dart stand, from the right end of the top edge."""
    nest = Nest(read(shape(box(300, 600), strokes=strokes)).pattern)
    [intake] = nest.line("piece_1", "top").intakes
    return [float(intake.low[0]), float(intake.high[0])]


def at(pattern_of: Piece, name: str) -> float:
    """Where a notch stands, from the lower end of the right edge."""
    place = pattern_of.notches[name].at  # type: ignore[union-attr]
    offset = float(place.offset)  # type: ignore[arg-type]
    return offset if place.name == "bottom" else 600 - offset


def test_a_tick_across_or_on_the_edge_is_a_notch() -> None:
    for a, b in ((297, 306), (300, 294), (300.4, 307)):
        found = piece(stroke(a + 200j, b + 200j))
        assert list(found.notches) == ["right_notch"]
        assert at(found, "right_notch") == pytest.approx(200, abs=0.01)


def test_two_and_three_ticks_close_together_are_double_and_triple() -> None:
    found = piece(*(stroke(297 + y * 1j, 303 + y * 1j) for y in (100, 108, 300, 307, 314, 500)))
    assert [n.kind for n in found.notches.values()] == ["double", "triple", "single"]  # type: ignore[union-attr]
    assert [at(found, name) for name in found.notches] == pytest.approx([104, 307, 500], abs=0.01)
    assert [n.spacing for n in found.notches.values()] == [None, 7.0, None]  # type: ignore[union-attr]


def test_a_tick_in_the_allowance_is_carried_on_to_the_stitch_line() -> None:
    found = piece(stroke(315 + 200j, 309 + 200j), allowances=(15.0,) * 4)
    assert at(found, "right_notch") == pytest.approx(200, abs=0.01)
    assert piece(stroke(315 + 200j, 309 + 200j)).notches == {}


def test_a_t_is_one_notch() -> None:
    found = piece(stroke(300 + 200j, 292 + 200j), stroke(292 + 196j, 292 + 204j))
    assert list(found.notches) == ["right_notch"]
    assert found.inner == {}


def test_a_small_triangle_on_the_edge_is_a_notch() -> None:
    found = piece(stroke(300 + 195j, 308 + 200j, 300 + 205j, closed=True))
    assert at(found, "right_notch") == pytest.approx(200, abs=0.1)


def test_what_lies_along_the_edge_or_away_from_it_is_no_notch() -> None:
    found = piece(stroke(299.5 + 200j, 299.5 + 210j), stroke(150 + 300j, 150 + 308j))
    assert found.notches == {}


@pytest.mark.parametrize("depth", [4.0, -4.0])
def test_a_v_cut_into_the_outline_is_a_nick_and_the_outline_runs_across_it(depth: float) -> None:
    nodes = [0j, 300 + 0j, 300 + 197j, 300 - depth + 200j, 300 + 203j, 300 + 600j, 600j]
    found = read(shape(nodes))
    [only] = found.pattern.pieces.values()
    assert [node.edge for node in only.outline or ()] == ["bottom", "right", None, None, "top", "left"]
    assert at(only, "right_notch") == pytest.approx(200, abs=0.01)
    assert Nest(found.pattern).line("piece_1", "right").length == pytest.approx(600)


def test_a_u_cut_into_the_outline_is_a_nick() -> None:
    nodes = [0j, 300 + 0j, 300 + 197j, 296 + 197j, 296 + 203j, 300 + 203j, 300 + 600j, 600j]
    assert at(read(shape(nodes)).pattern.pieces["piece_1"], "right_notch") == pytest.approx(200, abs=0.01)


def test_a_v_in_the_outline_is_a_dart_and_the_edge_runs_across_its_mouth() -> None:
    nodes = [0j, 300 + 0j, 300 + 600j, 160 + 600j, 150 + 500j, 140 + 600j, 600j]
    found = read(shape(nodes))
    dart = found.pattern.pieces["piece_1"].darts["top_dart"]
    assert dart is not None
    assert dart.apex == 150 + 500j
    nest = Nest(found.pattern)
    assert nest.line("piece_1", "top").length == pytest.approx(300)
    assert nest.line("piece_1", "top").sewn_length == pytest.approx(280)


def test_a_wide_v_in_the_outline_is_the_shape_of_the_piece() -> None:
    nodes = [0j, 300 + 0j, 300 + 600j, 230 + 600j, 150 + 480j, 70 + 600j, 600j]
    only = read(shape(nodes)).pattern.pieces["piece_1"]
    assert only.darts == {}
    assert len([node for node in only.outline or () if node.edge]) == 7


@pytest.mark.parametrize("apart", [False, True])
def test_a_v_drawn_inside_with_both_feet_on_one_edge_is_a_dart(apart: bool) -> None:
    legs = (
        (stroke(140 + 600j, 150 + 500j), stroke(160 + 600j, 150 + 500j))
        if apart
        else (stroke(140 + 600j, 150 + 500j, 160 + 600j),)
    )
    dart = piece(*legs).darts["top_dart"]
    assert dart is not None
    assert dart.apex == 150 + 500j
    assert feet(*legs) == pytest.approx([140, 160])


def test_legs_drawn_on_into_the_allowance_stand_where_they_cross_the_stitch_line() -> None:
    assert feet(stroke(139 + 610j, 150 + 500j, 161 + 610j)) == pytest.approx([140, 160])


def test_a_v_with_feet_on_two_edges_or_its_point_outside_is_no_dart() -> None:
    across_a_corner = stroke(280 + 600j, 250 + 540j, 300 + 570j)
    outside = stroke(140 + 600j, 150 + 700j, 160 + 600j)
    assert piece(across_a_corner, outside).darts == {}


def test_the_legs_may_come_as_common_stretches_of_faces() -> None:
    from notchwork.recognise.shape import Inner

    v = lines(np.array([140 + 600j, 150 + 500j, 160 + 600j]))
    found = piece(inner=(Inner(v),))
    assert list(found.darts) == ["top_dart"]
    assert found.inner == {}


def test_an_arrow_is_the_grainline_with_its_heads_apart_or_in_one_stroke() -> None:
    shaft = stroke(150 + 100j, 150 + 500j)
    heads = (stroke(145 + 490j, 150 + 500j, 155 + 490j), stroke(145 + 110j, 150 + 100j, 155 + 110j))
    for strokes in ((shaft, *heads), (stroke(150 + 100j, 150 + 500j, 145 + 490j), heads[1])):
        found = piece(*strokes)
        assert found.grainline is not None
        assert {point.at for point in found.grainline} == {150 + 100j, 150 + 500j}
        assert found.inner == {}


def test_a_line_with_the_word_beside_it_is_the_grainline_before_any_arrow() -> None:
    arrow = (stroke(50 + 100j, 50 + 500j), stroke(45 + 490j, 50 + 500j, 55 + 490j))
    found = piece(stroke(200 + 100j, 260 + 500j), *arrow, texts=(text("Grainline", 215 + 300j),))
    assert found.grainline is not None
    assert found.grainline[0].at == 200 + 100j


def test_a_plain_line_is_no_grainline() -> None:
    found = piece(stroke(150 + 100j, 150 + 500j))
    assert found.grainline is None
    assert list(found.inner) == ["line"]


def test_words_make_a_fold_of_a_straight_edge_only() -> None:
    straight = read(shape(box(300, 600), texts=(text("place on fold", 8 + 300j),)))
    assert straight.pattern.pieces["piece_1"].edges["left"].fold  # type: ignore[union-attr]
    assert "fold" in told(straight)
    bent = outline([0j, 300 + 0j, 300 + 600j, 600j, -40 + 300j], (0, 1, 2, 3))
    curved = read(shape(bent, texts=(text("place on fold", -30 + 300j),)))
    assert not any(edge is not None and edge.fold for edge in curved.pattern.pieces["piece_1"].edges.values())


def test_a_dash_dotted_edge_is_a_fold() -> None:
    contour = replace(outline(box(300, 600)), sources=np.array([-1, -1, -1, 0]))
    dashed = Stroke(lines(np.array([600j, 0j])), look=Look(dashes=(9.0, 3.0, 2.0, 3.0)))
    plain = replace(dashed, look=Look(dashes=(4.0, 2.0)))
    for drawn, folded in ((dashed, True), (plain, False)):
        from notchwork.recognise.shape import Seen
        from notchwork.recognise.words import read_words

        only = read_words(Seen((shape(contour),)), [drawn]).pattern.pieces["piece_1"]
        assert ("left" in only.edges) == folded


def test_small_circles_crosses_and_points_are_marks() -> None:
    ring = Stroke(circle(100 + 100j, 3.0, 4), closed=True)
    cross = (stroke(197 + 100j, 203 + 100j), stroke(200 + 97j, 200 + 103j))
    found = piece(ring, *cross, dots=(Dot(150 + 400j),))
    assert sorted((m.at for m in found.marks.values()), key=lambda z: z.real) == [  # type: ignore[union-attr]
        pytest.approx(100 + 100j),
        pytest.approx(150 + 400j),
        pytest.approx(200 + 100j),
    ]
    assert found.inner == {}
    large = Stroke(circle(100 + 100j, 30.0, 4), closed=True)
    assert piece(large).marks == {}


def test_a_closed_line_is_cut_out_where_words_say_so() -> None:
    hole = stroke(100 + 100j, 200 + 100j, 200 + 140j, 100 + 140j, closed=True)
    assert list(piece(hole, texts=(text("cut out", 150 + 120j),)).cutouts) == ["hole"]
    assert list(piece(hole).inner) == ["line"]


def test_a_casing_and_a_pleat_by_the_words_beside_them() -> None:
    found = piece(stroke(0 + 560j, 300 + 560j), texts=(text("casing", 150 + 552j),))
    assert found.inner["casing"].use == "casing"  # type: ignore[union-attr]
    pleat = piece(
        stroke(100 + 600j, 100 + 540j), stroke(140 + 600j, 140 + 540j), texts=(text("pleat", 120 + 560j),)
    )
    folds = pleat.pleats["top_pleat"].folds  # type: ignore[union-attr]
    assert sorted(float(fold.offset) for fold in folds) == pytest.approx([100, 140])  # type: ignore[arg-type]


def test_what_is_not_read_is_told() -> None:
    beyond = stroke(150 + 100j, 400 + 100j)
    assert "not-read" in told(read(shape(box(300, 600), strokes=(beyond,))))


def test_every_length_stays_what_was_drawn() -> None:
    contour = outline([0j, 300 + 0j, 310 + 320j, 290 + 600j, 12 + 580j])
    nest = Nest(read(shape(contour)).pattern)
    drawn = lengths(contour.cubics)
    [graded] = nest.pieces.values()
    assert [float(graded.lines[edge].length[0]) for edge in graded.edges] == pytest.approx(drawn, abs=1e-9)
