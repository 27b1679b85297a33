"""Which of a piece's lines is the stitch line and which the cut line, and how wide the allowance is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from sketches import box, drawing, layers, polyline, words

from notchwork.drawing import Drawing, Group, Look, Stroke, Text
from notchwork.geometry import area, bounds, circle
from notchwork.recognise import Options, Seen, find_shapes
from notchwork.recognise.shape import Shape

PANEL, BAND = "#d4aa00", "#806600"


def ids(seen: Seen) -> list[str]:
    return [finding.rule.id for finding in seen.findings]


def test_two_outlines_at_a_steady_distance_are_stitch_and_cut_line():
    (shape,) = find_shapes(drawing(box(0, 0, 300, 200), box(15, 15, 270, 170))).shapes
    assert shape.kind == "stitch"
    assert shape.allowances == pytest.approx((15.0,) * 4)
    assert abs(area(shape.outline.cubics)) == pytest.approx(270 * 170)
    assert shape.cut is not None
    assert abs(area(shape.cut)) == pytest.approx(300 * 200)


def test_edges_may_have_different_allowances_and_none():
    (shape,) = find_shapes(drawing(box(0, 0, 300, 200), box(10, 0, 280, 170))).shapes
    assert sorted(shape.allowances) == pytest.approx([0.0, 10.0, 10.0, 30.0])


def test_curved_outlines_too():
    rings = [Stroke(circle(0j, radius), None, True) for radius in (100.0, 88.0)]
    (shape,) = find_shapes(drawing(*rings)).shapes
    assert shape.allowances == pytest.approx((12.0,), abs=1e-3)


def test_a_distance_that_is_not_steady_is_no_allowance():
    seen = find_shapes(
        drawing(box(0, 0, 300, 200), polyline(10 + 10j, 290 + 10j, 290 + 150j, 10 + 190j, closed=True))
    )
    assert len(seen.shapes) == 2
    assert [shape.kind for shape in seen.shapes] == [None, None]


def test_a_patch_on_a_panel_is_no_stitch_line():
    seen = find_shapes(drawing(box(0, 0, 400, 300), box(150, 100, 100, 100), texts=[words(20, 20, "panel")]))
    assert [shape.kind for shape in seen.shapes] == [None, None]


def test_a_stated_width_that_is_not_the_drawn_one_is_told():
    made = drawing(box(0, 0, 300, 200), box(14.5, 14.5, 271, 171), texts=[words(100, 5, "15 mm allowance")])
    assert "recognised/width-not-as-stated" in ids(find_shapes(made))
    right = drawing(box(0, 0, 300, 200), box(15, 15, 270, 170), texts=[words(100, 5, "15 mm allowance")])
    assert "recognised/width-not-as-stated" not in ids(find_shapes(right))


def bands(x: float = 0, y: float = 0, fill: str = BAND) -> list[Stroke]:
    return [
        box(x - 10, y - 10, 220, 10, fill),
        box(x - 10, y + 120, 220, 10, fill),
        box(x - 10, y, 10, 120, fill),
        box(x + 200, y, 10, 120, fill),
    ]


def test_bands_in_a_colour_that_a_legend_explains_are_the_allowance():
    swatch = box(400, 0, 20, 20, BAND)
    seen = find_shapes(
        drawing(box(0, 0, 200, 120, PANEL), *bands(), swatch, texts=[words(430, 8, "seam allowance")])
    )
    (shape,) = seen.shapes
    assert shape.kind == "stitch"
    assert shape.allowances == pytest.approx((10.0,) * 4)
    assert abs(area(shape.outline.cubics)) == pytest.approx(200 * 120)


def test_bands_in_a_colour_of_their_own_are_too_and_missing_ones_are_nothing():
    seen = find_shapes(drawing(box(0, 0, 200, 120, PANEL), *bands()[:3]))
    (shape,) = seen.shapes
    assert sorted(shape.allowances) == pytest.approx([0.0, 10.0, 10.0, 10.0])


def test_a_band_that_nothing_explains_is_part_of_the_piece():
    seen = find_shapes(drawing(box(0, 0, 200, 120, PANEL), box(0, 120, 200, 25, PANEL)))
    (shape,) = seen.shapes
    assert shape.kind is None
    assert abs(area(shape.outline.cubics)) == pytest.approx(200 * 145)
    assert len(shape.inner) == 1


def test_shapes_that_abut_are_one_piece_with_lines_between_and_bands_round_it_all():
    faces = [box(0, 0, 80, 120, PANEL), box(80.1, 0, 60, 120, PANEL), box(140, 0, 60, 120, PANEL)]
    (shape,) = find_shapes(drawing(*faces, *bands())).shapes
    assert abs(area(shape.outline.cubics)) == pytest.approx(200 * 120)
    assert len(shape.outline.corners) == 4
    assert len(shape.inner) == 2
    assert shape.allowances == pytest.approx((10.0,) * 4, abs=0.2)


def test_shapes_in_groups_of_their_own_stay_apart_though_they_abut():
    groups = (Group("Front", (box(0, 0, 80, 120),)), Group("Back", (box(80, 0, 80, 120),)))
    assert {shape.ident for shape in find_shapes(Drawing(groups)).shapes} == {"Front", "Back"}


def test_a_strap_that_ends_on_a_panel_and_shapes_that_overlap_stay_apart():
    seen = find_shapes(
        drawing(box(0, 0, 200, 120), box(80, 120, 25, 300), box(150, 60, 90, 40), texts=[words(5, 5, "a")])
    )
    assert len(seen.shapes) == 3


def test_strips_inside_along_edges_are_turns_and_the_outline_is_the_cut_line():
    hammock = [
        box(0, 0, 3300, 1500, "#786721"),
        box(0, 0, 3300, 10, "#786721"),
        box(0, 10, 3300, 10, "#786721"),
        box(0, 1490, 3300, 10, "#786721"),
    ]
    (shape,) = find_shapes(drawing(*hammock)).shapes
    assert shape.kind == "cut"
    assert sorted(width for width in shape.allowances if width is not None) == pytest.approx([10.0, 20.0])


def test_a_hem_drawn_on_to_open_strokes_is_a_turn():
    strokes = [
        polyline(0j, 500 + 0j),
        polyline(500 + 0j, 500 + 400j),
        polyline(500 + 400j, 0 + 400j),
        polyline(0 + 400j, 0j),
        polyline(0j, -30j, 500 - 30j, 500 + 0j),
    ]
    (shape,) = find_shapes(layers(part=strokes)).shapes
    assert shape.kind == "cut"
    assert abs(area(shape.outline.cubics)) == pytest.approx(500 * 430)
    assert [width for width in shape.allowances if width] == pytest.approx([30.0])
    assert len(shape.inner) == 1


def test_a_line_inside_along_an_edge_is_a_line_and_no_turn():
    (shape,) = find_shapes(drawing(box(0, 0, 500, 400), polyline(0 + 30j, 500 + 30j))).shapes
    assert shape.kind is None
    assert len(shape.strokes) == 1


def test_a_webbing_across_a_panel_is_no_turn():
    seen = find_shapes(drawing(box(0, 0, 500, 400), box(0, 150, 500, 25), texts=[words(5, 5, "panel")]))
    assert [shape.kind for shape in seen.shapes] == [None, None]


def test_one_outline_alone_is_not_known_to_be_either_and_this_is_told_with_the_names():
    seen = find_shapes(drawing(box(0, 0, 300, 200, name="Back")))
    assert seen.shapes[0].kind is None
    assert seen.shapes[0].allowances == (None,) * 4
    (told,) = [finding for finding in seen.findings if finding.rule.id == "recognised/outline-not-known"]
    assert told.values["names"] == ("Back",)


def test_a_stated_kind_settles_it():
    made = drawing(box(0, 0, 300, 200))
    assert find_shapes(made, Options(outline="stitch")).shapes[0].kind == "stitch"
    (shape,) = find_shapes(made, Options(outline="cut", allowance=10)).shapes
    assert shape.kind == "stitch"
    assert abs(area(shape.outline.cubics)) == pytest.approx(280 * 180)
    assert shape.allowances == (10.0,) * 4
    assert shape.cut is not None


def test_the_stitch_line_of_a_curved_cut_line_lies_inside_by_the_allowance():
    (shape,) = find_shapes(
        drawing(Stroke(circle(0j, 171.65 + 12), None, True)), Options(outline="cut", allowance=12)
    ).shapes
    assert np.abs(shape.outline.cubics[:, 0]) == pytest.approx(171.65, abs=1e-3)


def test_what_is_known_already_is_not_changed_by_what_is_stated():
    (shape,) = find_shapes(
        drawing(box(0, 0, 300, 200), box(15, 15, 270, 170)), Options(outline="cut", allowance=7)
    ).shapes
    assert shape.allowances == pytest.approx((15.0,) * 4)


def test_an_allowance_without_room_leaves_the_cut_line_and_says_so():
    seen = find_shapes(drawing(box(0, 0, 300, 14)), Options(outline="cut", allowance=10))
    assert seen.shapes[0].kind == "cut"
    assert "recognised/stitch-line-lost" in ids(seen)


@pytest.mark.parametrize(
    "wrong",
    [{"tolerance": 0.0}, {"scale": -1.0}, {"allowance": -3.0}, {"outline": "cut"}],
)
def test_options_that_cannot_be_are_refused(wrong: dict[str, object]):
    with pytest.raises(ValueError, match=r".+"):
        Options(**wrong)  # type: ignore[arg-type]


def test_words_belong_to_the_piece_they_are_in_else_to_the_nearest():
    seen = find_shapes(
        drawing(
            box(0, 0, 200, 100),
            box(300, 0, 100, 100),
            texts=[words(20, 40, "front"), words(310, 105, "back"), words(900, 900, "sew slowly")],
        )
    )
    assert [[text.words for text in shape.texts] for shape in seen.shapes] == [["front"], ["back"]]
    assert [text.words for text in seen.texts] == ["sew slowly"]


def test_small_circles_and_open_strokes_belong_to_the_piece_they_lie_in():
    marks = [Stroke(circle(50 + 50j, 2.0), None, True, look=Look()), polyline(100 + 20j, 100 + 80j)]
    (shape,) = find_shapes(drawing(box(0, 0, 200, 100), *marks)).shapes
    assert len(shape.strokes) == 2


def by_cut_line(*strokes: Stroke, texts: tuple[Text, ...] = ()) -> Shape:
    made = drawing(*strokes, texts=list(texts))
    (shape,) = find_shapes(made, Options(outline="cut", allowance=10)).shapes
    return shape


def across(shape: Shape) -> tuple[float, float]:
    low, high = bounds(shape.outline.cubics)
    return high.real - low.real, high.imag - low.imag


def test_nothing_is_sewn_at_a_fold_so_a_cut_line_stays_there():
    square = by_cut_line(box(0, 0, 300, 300))
    assert across(square) == pytest.approx((280.0, 280.0))
    folded = by_cut_line(box(0, 0, 300, 300), texts=(words(4, 150, "fold"),))
    assert across(folded) == pytest.approx((290.0, 280.0))
    assert sorted(folded.allowances) == pytest.approx([0.0, 10.0, 10.0, 10.0])


def test_nor_where_the_fold_is_drawn_in_dashes_and_dots():
    rest = polyline(0j, 300 + 0j, 300 + 300j, 300j)
    dashed = replace(polyline(300j, 0j), look=Look(dashes=(8.0, 2.0, 1.0, 2.0)))
    folded = by_cut_line(rest, dashed)
    assert across(folded) == pytest.approx((290.0, 280.0))
    assert sorted(folded.allowances) == pytest.approx([0.0, 10.0, 10.0, 10.0])


def test_a_cut_order_on_the_fold_names_no_edge():
    square = by_cut_line(box(0, 0, 300, 300), texts=(words(10, 150, "cut 1 on fold"),))
    assert across(square) == pytest.approx((280.0, 280.0))


def test_an_outline_that_is_stated_to_be_the_stitch_line_has_no_turns_inside():
    made = drawing(box(0, 0, 400, 300), box(0, 280, 400, 20), box(0, 0, 400, 20))
    (turned,) = find_shapes(made).shapes
    assert turned.kind == "cut"
    seen = find_shapes(made, Options(outline="stitch"))
    (shape,) = seen.shapes
    assert shape.kind == "stitch"
    assert shape.allowances == (None,) * 4
    assert across(shape) == pytest.approx((400.0, 300.0))
    assert len(shape.inner) == 2
    assert not {"recognised/turn-drawn", "recognised/outline-not-known"} & set(ids(seen))
