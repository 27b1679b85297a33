"""From nest to drawing: lines where the nest has them, pieces side by side, words where there is room."""

from __future__ import annotations

import json
from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest
from patterns import Document, case, nest_of

from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Group, as_svg
from notchwork.geometry import lengths, nearest
from notchwork.sewing import Nest
from notchwork.sewing.shapes.inside import outside_by


@pytest.fixture(scope="module")
def nest() -> Nest:
    return nest_of(case("ferry_smock"))


@pytest.fixture(scope="module")
def drawing(nest: Nest) -> Drawing:
    return draw_pattern(nest)


def group(drawing: Drawing, name: str) -> Group:
    return next(g for g in drawing.groups if g.name == name)


def test_every_edge_is_drawn_as_the_nest_has_it_in_every_size(nest: Nest, drawing: Drawing) -> None:
    for ident, graded in nest.pieces.items():
        for size, name in enumerate(nest.sizes):
            for edge in graded.edges:
                meaning = "fold" if edge in graded.folds else "stitch"
                [stroke] = [
                    s
                    for s in group(drawing, ident).strokes
                    if s.meaning == meaning and s.facts.get("edge") == edge and s.facts.get("size") == name
                ]
                assert np.array_equal(stroke.cubics, nest.cubics_of(graded.lines[edge], size))


def test_the_cut_line_is_open_on_the_fold_and_closed_without_one(drawing: Drawing) -> None:
    cuts = {g.name: [s for s in g.strokes if s.meaning == "cut"] for g in drawing.groups}
    assert [s.closed for s in cuts["front"]] == [False] * 3
    assert [s.closed for s in cuts["sleeve"]] == [True] * 3
    for stroke in cuts["front"]:
        on_fold = np.abs(stroke.cubics[:, [0, 3]].real).max(axis=1) < 0.01
        assert not on_fold.any()


def test_the_fold_runs_on_through_the_hem(drawing: Drawing) -> None:
    folds = [s for s in group(drawing, "front").strokes if s.meaning == "fold" and s.facts.get("size") == "M"]
    assert min(s.cubics.imag.min() for s in folds) == pytest.approx(-30, abs=0.01)
    assert sum(lengths(s.cubics).sum() for s in folds) == pytest.approx(570, abs=0.01)


def test_a_notch_stands_square_across_the_stitch_line_and_a_double_one_has_two_nicks(
    nest: Nest, drawing: Drawing
) -> None:
    ticks = [s for s in group(drawing, "back").strokes if s.meaning == "notch" and s.facts["size"] == "M"]
    assert [s.facts["kind"] for s in ticks] == ["double", "double"]
    armhole = nest.line("back", "armhole")
    middle = np.array([s.cubics[0, [0, 3]].mean() for s in ticks])
    assert nearest(nest.cubics_of(armhole, 1), middle).distance == pytest.approx([1.5, 1.5], abs=0.1)
    assert abs(middle[1] - middle[0]) == pytest.approx(8, abs=0.3)


def test_pieces_do_not_lie_on_each_other(drawing: Drawing) -> None:
    boxes = {g.name: g.bounds for g in drawing.groups}
    assert set(boxes) == {"front", "back", "sleeve", "neck_binding", "legend", "test-square"}
    for (_, one), (_, other) in combinations(boxes.items(), 2):
        assert one is not None
        assert other is not None
        (a, b), (c, d) = one, other
        assert b.real <= c.real or d.real <= a.real or b.imag <= c.imag or d.imag <= a.imag


def test_every_piece_carries_its_name_and_cut_order_inside(nest: Nest, drawing: Drawing) -> None:
    for ident, graded in nest.pieces.items():
        words = [t for t in group(drawing, ident).texts if t.meaning in ("name", "note")]
        assert graded.name in [t.words for t in words]
        corners = np.array([corner for t in words for corner in t.box])
        assert outside_by(nest.outline(ident, 1), corners).max() == 0.0
    said = [t.words for t in group(drawing, "sleeve").texts]
    assert "2 × Washed linen, in pairs" in said
    assert {"S", "M", "L"} <= set(said)


def test_a_piece_too_narrow_for_its_name_has_it_above() -> None:
    document = case("ferry_smock")
    document["pieces"]["neck_binding"]["strip"]["width"] = 8
    [name] = [t for t in group(draw_pattern(nest_of(document)), "neck_binding").texts if t.meaning == "name"]
    assert name.at.imag > 8


def test_sizes_and_pieces_can_be_chosen(nest: Nest) -> None:
    drawing = draw_pattern(nest, Options(sizes=("L",), pieces=("sleeve",)))
    assert [g.name for g in drawing.groups] == ["sleeve", "legend", "test-square"]
    assert {s.facts.get("size") for _, s in drawing.strokes("cut")} <= {"L", None}
    with pytest.raises(KeyError):
        draw_pattern(nest, Options(sizes=("XXL",)))
    with pytest.raises(KeyError):
        draw_pattern(nest, Options(pieces=("trousers",)))


def test_darts_pleats_marks_and_inner_lines_are_drawn() -> None:
    document: Document = case("ferry_smock")
    front = document["pieces"]["front"]
    front["darts"] = {
        "bust": {"edge": "side", "feet": [["armhole", 50], ["armhole", 70]], "apex": [140, 340]}
    }
    front["pleats"] = {"tuck": {"edge": "hem", "folds": [["side", 60], ["side", 90]], "to": "center"}}
    front["marks"] = {"pocket": {"at": [100, 200]}}
    front["inner"] = {"tape": {"parallel_to": "hem", "distance": 60, "width": 12, "use": "casing"}}
    drawing = draw_pattern(nest_of(document), Options(sizes=("M",), pieces=("front",)))
    meanings = [s.meaning for s in group(drawing, "front").strokes]
    assert [meanings.count(m) for m in ("dart", "pleat", "casing")] == [2, 4, 1]
    dots = {dot.meaning: dot.at for dot in group(drawing, "front").dots}
    assert dots == {"dart": 140 + 340j, "mark": 100 + 200j}
    assert "pocket" in [t.words for t in group(drawing, "front").texts]
    words = [t.words for t in group(drawing, "legend").texts]
    assert {"dart", "pleat", "casing", "notch"} <= set(words)


def test_grain_and_marks_are_drawn_once_where_they_are_alike_in_all_sizes_else_in_each() -> None:
    document: Document = case("ferry_smock")
    front = document["pieces"]["front"]
    front["grainline"] = [[60, 120], {"at": [60, 460], "grade": "side"}]
    front["marks"] = {"button": {"at": [50, 200]}, "pocket": {"at": [100, 200], "grade": "side"}}
    drawing = draw_pattern(nest_of(document))
    shafts = {g.name: [s for s in g.strokes if "angle" in s.facts] for g in drawing.groups}
    assert [s.facts.get("size") for s in shafts["front"]] == ["M", "S", "L"]
    assert [s.facts.get("size") for s in shafts["back"]] == [None]
    marks = [(d.facts["name"], d.facts.get("size")) for d in group(drawing, "front").dots]
    assert sorted(marks, key=str) == [("button", None), ("pocket", "L"), ("pocket", "M"), ("pocket", "S")]


def test_cut_orders_and_wishes_are_said_beside_the_lines() -> None:
    document: Document = case("ferry_smock")
    document["materials"]["voile"] = {"name": "Voile"}
    sleeve = document["pieces"]["sleeve"]
    sleeve["cut"] = [
        {"plies": ["linen", "voile"], "count": 2, "mirrored": True},
        {"material": "linen", "count": {"S": 1, "M": 1, "L": 2}, "hand": "mirrored"},
    ]
    sleeve["grain"] = "bias"
    sleeve["bias_to"] = "hem"
    drawn = group(draw_pattern(nest_of(document)), "sleeve")
    orders = [dict(t.facts) for t in drawn.texts if "quantity" in t.facts]
    # Of the voile nothing is known but its name.
    states = json.dumps({"materials": {"linen": {"width": 1400}}}, separators=(",", ":"))
    assert orders == [
        {"material": "linen.voile", "kind": "mirrored", "quantity": 2, "states": states},
        {"material": "linen", "use": "turned", "quantity": 1, "size": "S", "states": states},
        {"material": "linen", "use": "turned", "quantity": 1, "size": "M", "states": states},
        {"material": "linen", "use": "turned", "quantity": 2, "size": "L", "states": states},
    ]
    assert drawn.facts == {"piece": "sleeve", "name": "Sleeve", "grain": "bias", "to": "hem"}


def test_the_words_on_the_test_square_stay_inside_it(drawing: Drawing) -> None:
    square = group(drawing, "test-square")
    corners = np.array([corner for text in square.texts for corner in text.box])
    assert corners.real.min() > 0
    assert corners.imag.min() > 0
    assert corners.real.max() < 100
    assert corners.imag.max() < 100


def test_a_pattern_without_shapes_gives_an_empty_drawing() -> None:
    document = {"notchwork": "1.0", "pieces": {"front": {"edges": {"side": {"length": 400}}}}}
    drawing = draw_pattern(nest_of(document))
    assert drawing.groups == ()
    assert drawing.bounds is None


def test_the_whole_goes_through_as_svg(drawing: Drawing) -> None:
    root = ElementTree.fromstring(as_svg(drawing))
    texts = [t.text for t in root.iter("{http://www.w3.org/2000/svg}text")]
    assert "Front" in texts
    assert "place on fold" in texts


@pytest.mark.parametrize("letters", [119, 120, 121, 10_000])
def test_endless_names_are_broken_off_where_they_are_written(letters: int) -> None:
    """What is written reaches no further than a name can; what a piece is called is kept whole in its facts."""
    document = case("two_panel_skirt")
    name = "F" * letters
    document["sizes"] = {"names": [name, "M"], "base": "M"}
    document["pieces"]["front"] |= {"name": name, "marks": {name: {"at": [100, 100]}}}
    drawing = draw_pattern(nest_of(document))
    written = [text.words for group in drawing.groups for text in group.texts]
    assert max(map(len, written)) <= 120
    assert (name in written) == (letters <= 120)
    assert drawing.groups[0].facts["name"] == name
