"""What is no piece is set aside and listed; and how large the drawing is."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from sketches import box, drawing, polyline, words

from notchwork.drawing import Look, Stroke
from notchwork.findings import worded
from notchwork.geometry import area
from notchwork.recognise import Options, Seen, find_shapes


def kinds(seen: Seen) -> Counter[str]:
    return Counter(thing.what for thing in seen.aside)


def ids(seen: Seen) -> list[str]:
    return [finding.rule.id for finding in seen.findings]


PIECE = box(0, 0, 300, 200, "#ddccaa")


def dimension(x: float, y: float, drawn: float) -> list[Stroke]:
    """A line with lines across at its ends, broken for its figure."""
    middle = x + drawn / 2
    return [
        polyline(complex(x, y - 4), complex(x, y + 4)),
        polyline(complex(x + drawn, y - 4), complex(x + drawn, y + 4)),
        polyline(complex(x + 4, y), complex(middle - 12, y)),
        polyline(complex(middle + 12, y), complex(x + drawn - 4, y)),
    ]


def test_a_dimension_with_its_figure_is_set_aside():
    seen = find_shapes(drawing(PIECE, *dimension(0, -30, 300.0), texts=[words(140, -31, "300mm")]))
    assert kinds(seen) == {"dimension": 1}
    assert len(seen.shapes) == 1
    assert seen.scale == 1.0
    assert "recognised/scale-doubtful" not in ids(seen)


def test_a_rounded_figure_agrees_with_what_is_drawn():
    seen = find_shapes(drawing(PIECE, *dimension(0, -30, 25.4 * 4), texts=[words(40, -31, "101mm")]))
    assert seen.scale == 1.0
    assert not [ident for ident in ids(seen) if "scale" in ident]


def test_a_square_that_a_text_names_settles_the_scale_and_is_no_piece():
    square = box(400, 0, 25, 25)
    seen = find_shapes(drawing(PIECE, square, texts=[words(400, 30, "Test square 50 mm x 50 mm")]))
    assert kinds(seen) == {"test square": 1}
    assert seen.scale == pytest.approx(2.0)
    assert abs(area(seen.shapes[0].outline.cubics)) == pytest.approx(4 * 300 * 200)
    assert "recognised/scale" in ids(seen)


def test_a_square_of_100_mm_alone_is_a_piece():
    seen = find_shapes(drawing(PIECE, box(400, 0, 100, 100), texts=[words(410, 40, "pocket")]))
    assert len(seen.shapes) == 2
    assert not kinds(seen)


def test_two_scales_that_are_plausible_are_told():
    square = box(400, 0, 50, 50)
    seen = find_shapes(
        drawing(
            PIECE,
            square,
            *dimension(0, -30, 300.0),
            texts=[words(400, 55, "This square is 50 mm"), words(140, -31, "600mm")],
        )
    )
    assert seen.scale == 1.0
    assert "recognised/scale-doubtful" in ids(seen)


def test_a_stated_scale_goes_before_everything():
    square = box(400, 0, 25, 25)
    made = drawing(PIECE, square, texts=[words(400, 30, "Test square 50 mm")])
    assert find_shapes(made, Options(scale=3.0)).scale == 3.0


def test_without_units_or_anything_to_measure_the_numbers_are_mm_and_this_is_told():
    seen = find_shapes(drawing(PIECE, scale=None))
    assert seen.scale == 1.0
    assert "recognised/scale-not-said" in ids(seen)


def test_scale_one_to_one_in_words_is_no_test_square():
    seen = find_shapes(drawing(PIECE, box(0, -40, 20, 20), texts=[words(30, -30, 'SCALE: 1 = 1"')]))
    assert len(seen.shapes) == 2
    assert seen.scale == 1.0


def test_a_legend_is_set_aside_and_a_single_patch_beside_words_is_not():
    swatches = [box(400, 0, 20, 20, "#556699"), box(400, 20, 20, 20, "#ccbb00")]
    said = [words(430, 8, "lining"), words(430, 28, "canvas")]
    assert kinds(find_shapes(drawing(PIECE, *swatches, texts=said))) == {"legend": 2}
    alone = find_shapes(drawing(PIECE, swatches[0], texts=said[:1]))
    assert not kinds(alone)
    assert len(alone.shapes) == 2


def test_leaders_end_at_words():
    leaders = [polyline(150 + 100j, 380 + 120j), polyline(300 + 0j, 380 - 40j, 300 - 80j)]
    said = [words(384, 118, "front face"), words(384, -42, "sew twice")]
    seen = find_shapes(drawing(PIECE, box(0, -280, 300, 200), *leaders, texts=said))
    assert kinds(seen) == {"leader": 2}
    assert len(seen.shapes) == 2


def test_lines_from_piece_to_piece_are_leaders_and_enclose_nothing():
    joins = [polyline(20 + 0j, 20 - 80j), polyline(280 + 0j, 280 - 80j)]
    seen = find_shapes(drawing(PIECE, box(0, -280, 300, 200), *joins))
    assert kinds(seen) == {"leader": 2}
    assert len(seen.shapes) == 2


def test_a_line_inside_a_piece_away_from_words_is_no_leader():
    seen = find_shapes(drawing(PIECE, polyline(150 + 20j, 150 + 180j), texts=[words(10, 10, "front")]))
    assert not kinds(seen)
    assert len(seen.shapes[0].strokes) == 1


def test_rows_of_equal_vs_are_stitching():
    vs = [
        polyline(complex(20, 20 + 3 * k), complex(25, 21.5 + 3 * k), complex(20, 23 + 3 * k))
        for k in range(6)
    ]
    seen = find_shapes(drawing(PIECE, *vs))
    assert kinds(seen) == {"stitching": 1}


def test_single_vs_on_an_edge_are_no_stitching():
    vs = [
        polyline(complex(40 + 90 * k, 0), complex(44 + 90 * k, 6), complex(48 + 90 * k, 0)) for k in range(3)
    ]
    seen = find_shapes(drawing(PIECE, *vs))
    assert not kinds(seen)
    assert len(seen.shapes[0].strokes) == 3


def test_small_black_shapes_are_lettering_or_hardware_and_large_ones_are_pieces():
    buckle = box(340, 0, 40, 25, "#1a1a1a")
    seen = find_shapes(drawing(PIECE, buckle))
    assert kinds(seen) == {"lettering or hardware": 1}
    assert len(find_shapes(drawing(PIECE, box(340, 0, 70, 90, "#1a1a1a"))).shapes) == 2


def test_words_drawn_as_coloured_shapes_are_lettering():
    letters = [
        Stroke(box(20 + 9 * k, 90, 6, 9).cubics, None, True, look=Look(None, "#00ff00")) for k in range(6)
    ]
    seen = find_shapes(drawing(box(0, 0, 300, 200), *letters))
    assert kinds(seen) == {"lettering": 1}


def test_a_frame_round_pieces_is_set_aside_and_a_piece_with_pockets_is_not():
    pieces = [box(20, 20, 80, 60), box(120, 20, 80, 60), box(20, 120, 80, 60)]
    framed = find_shapes(drawing(box(0, 0, 297, 210), *pieces, texts=[words(30, 30, "a")]))
    assert kinds(framed) == {"title frame": 1}
    assert len(framed.shapes) == 3
    panel = find_shapes(drawing(box(0, 0, 620, 450, "#eeeeee"), *pieces, texts=[words(30, 30, "a")]))
    assert len(panel.shapes) == 4


def test_lines_that_end_on_a_frame_go_on_along_it():
    pieces = [box(20, 20, 80, 60), box(120, 20, 80, 60), box(20, 120, 80, 60)]
    open_ended = polyline(600 + 100j, 500 + 100j, 500 + 160j, 600 + 160j)
    seen = find_shapes(drawing(box(0, 0, 600, 400), *pieces, open_ended, texts=[words(30, 30, "a")]))
    assert kinds(seen) == {"title frame": 1}
    assert sorted(round(abs(area(shape.outline.cubics))) for shape in seen.shapes) == [4800, 4800, 4800, 6000]


def test_strokes_of_no_piece_are_listed():
    seen = find_shapes(drawing(PIECE, polyline(900 + 0j, 960 + 10j, 990 - 40j)))
    assert kinds(seen) == {"stroke of no piece": 1}
    assert seen.aside[0].strokes == (1,)
    (told,) = [finding for finding in seen.findings if finding.rule.id == "recognised/set-aside"]
    assert told.place.point == pytest.approx(seen.aside[0].at)


def test_a_drawing_without_words_whose_outlines_cross_says_that_nothing_names_a_piece():
    crossing = [box(0, 0, 200, 100), box(150, 50, 200, 100), box(10, 10, 180, 80)]
    seen = find_shapes(drawing(*crossing))
    assert len(seen.shapes) == 3
    assert "recognised/no-piece-named" in ids(seen)
    assert all(shape.kind is None for shape in seen.shapes)
    named = find_shapes(drawing(*crossing, texts=[words(20, 20, "panel")]))
    assert "recognised/no-piece-named" not in ids(named)


def test_an_empty_drawing_has_no_shapes():
    seen = find_shapes(drawing())
    assert seen.shapes == ()
    assert np.isfinite(seen.scale)


def own_square(wide: float, tall: float, **facts: object) -> Stroke:
    """A test square as it is drawn here, with what it says of itself."""
    said = {"kind": "test-square", "width": 100.0} | facts
    return replace(box(400, 0, wide, tall), meaning="legend", facts=said)


def test_a_square_that_states_its_width_settles_the_scale_where_nothing_else_does():
    seen = find_shapes(drawing(PIECE, own_square(25, 25), scale=None))
    assert seen.scale == pytest.approx(4.0)
    assert kinds(seen) == {"test square": 1}
    [told] = [worded(f.text, f.values) for f in seen.findings if f.rule.id == "recognised/scale"]
    assert told == "The test square is drawn 25.0 mm long, so a mm of the drawing is 4.00 mm of cloth."


@pytest.mark.parametrize(
    ("square", "scale"),
    [
        (own_square(25, 25), 1.0),  # the file's own units go before
        (own_square(25, 31), None),  # somebody has pulled at it
        (own_square(25, 25, width="wide"), None),
    ],
)
def test_but_not_where_the_file_has_units_or_it_is_no_square(square: Stroke, scale: float | None):
    seen = find_shapes(drawing(PIECE, square, scale=scale))
    assert seen.scale == 1.0
    assert ("recognised/scale-not-said" in ids(seen)) == (scale is None)


def test_a_square_whose_size_stands_in_the_line_below_its_name():
    texts = [words(405, 18, "Test square", 2), words(405, 14.8, "50 × 50 mm", 2)]
    seen = find_shapes(drawing(PIECE, box(400, 0, 25, 25), texts=texts, scale=None))
    assert seen.scale == pytest.approx(2.0)
    assert kinds(seen) == {"test square": 1}
    far = [texts[0], words(405, 5, "50 × 50 mm", 2)]
    assert find_shapes(drawing(PIECE, box(400, 0, 25, 25), texts=far, scale=None)).scale == 1.0
