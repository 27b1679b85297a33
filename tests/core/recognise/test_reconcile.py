"""What was changed in a drawing since is put into the document that came along."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from patterns import Document, case, nest_of
from storm_petrel import sound

from notchwork.document import read_pattern, write_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Drawing, Stroke
from notchwork.findings import Finding
from notchwork.geometry import parts
from notchwork.model import Pattern
from notchwork.recognise import fineness, recognise, reconcile
from notchwork.sewing import Nest

Change = Callable[[Stroke], Stroke | None]


def drawn(document: Document) -> tuple[Pattern, Drawing]:
    """The pattern of a document and its drawing; each document is drawn once."""
    return _drawn(json.dumps(document))


@cache
def _drawn(text: str) -> tuple[Pattern, Drawing]:
    nest = nest_of(json.loads(text))
    return nest.pattern, draw_pattern(nest)


def edited(drawing: Drawing, piece: str, change: Change) -> Drawing:
    """The drawing with every stroke of a piece changed; None takes one away."""
    return replace(
        drawing,
        groups=tuple(
            replace(g, strokes=tuple(new for s in g.strokes if (new := change(s)) is not None))
            if g.name == piece
            else g
            for g in drawing.groups
        ),
    )


def rounded(drawing: Drawing, digits: int, placed: bool) -> Drawing:
    """As a program saves it that keeps so many decimals: of each group's own coordinates, or of those on the sheet."""
    groups = []
    for g in drawing.groups:
        shift = g.shift if placed else 0j
        groups.append(
            replace(
                g,
                shift=g.shift - shift,
                strokes=tuple(replace(s, cubics=np.round(s.cubics + shift, digits)) for s in g.strokes),
                dots=tuple(replace(d, at=d.at + shift) for d in g.dots),
                texts=tuple(replace(t, at=t.at + shift) for t in g.texts),
            )
        )
    return replace(drawing, groups=tuple(groups))


def moving(at: complex, by: complex) -> Change:
    """Move every node that lies at a point, with handles that lie there too."""

    def change(stroke: Stroke) -> Stroke:
        near = np.abs(stroke.cubics - at) < 0.01
        return replace(stroke, cubics=np.where(near, stroke.cubics + by, stroke.cubics))

    return change


def put_together(
    document: Document, piece: str, change: Change
) -> tuple[Pattern, tuple[Finding, ...], Pattern]:
    """The document's pattern after an edit of its drawing, what was told, and the pattern before."""
    pattern, drawing = drawn(document)
    found, told = reconcile(recognise(edited(drawing, piece, change)).pattern, pattern)
    assert read_pattern(write_pattern(found), "test").faults == ()
    return found, told, pattern


def others_stay(found: Pattern, before: Pattern, piece: str) -> None:
    assert {k: v for k, v in found.pieces.items() if k != piece} == {
        k: v for k, v in before.pieces.items() if k != piece
    }


@pytest.mark.parametrize("document", [sound(), *map(case, ("ferry_smock", "every_key", "two_panel_skirt"))])
def test_where_nothing_moved_the_document_stays_as_it_is(document: Document) -> None:
    pattern, drawing = drawn(document)
    found, told = reconcile(recognise(drawing).pattern, pattern)
    assert found is pattern
    assert told == ()


@pytest.mark.parametrize("placed", [False, True])
@pytest.mark.parametrize("digits", [3, 2, 1])
def test_numbers_that_another_program_rounded_have_not_moved(digits: int, placed: bool) -> None:
    pattern, drawing = drawn(case("ferry_smock"))
    saved = rounded(drawing, digits, placed)
    fine = fineness(saved, drawing)
    assert fine == 0.001 if digits == 3 else 0.4 * 10.0**-digits < fine < 0.8 * 10.0**-digits
    found, told = reconcile(recognise(saved).pattern, pattern, fine)
    assert found is pattern
    assert told == ()


def test_an_edit_by_a_tenth_is_not_taken_for_rounding() -> None:
    pattern, drawing = drawn(case("two_panel_skirt"))
    moved = edited(drawing, "front", moving(300 + 0j, 0.1 + 0j))
    assert fineness(moved, drawing) == 0.001
    found, told = reconcile(recognise(moved).pattern, pattern, fineness(moved, drawing))
    assert [f.place.piece for f in told] == ["front"]
    assert found != pattern


def test_a_piece_laid_elsewhere_on_the_sheet_has_not_changed() -> None:
    found, told, before = put_together(
        case("ferry_smock"), "front", lambda s: replace(s, cubics=s.cubics + (500 + 20j))
    )
    assert found is before
    assert told == ()


def test_a_moved_corner_moves_in_the_size_in_which_it_was_moved() -> None:
    found, told, before = put_together(case("ferry_smock"), "back", moving(250 + 0j, -5j))
    assert [(f.rule.id, f.place.piece) for f in told] == [("recognised/drawn-anew", "back")]
    assert found.seams == before.seams
    others_stay(found, before, "back")
    a, b = Nest(before), Nest(found)
    assert b.line("back", "side").length - a.line("back", "side").length == pytest.approx([0, 5, 0])
    assert b.notches["back", "pitch"] == pytest.approx(a.notches["back", "pitch"])


def test_a_moved_piece_with_a_moved_corner_keeps_its_own_coordinates() -> None:
    shift = 700 - 40j

    def change(stroke: Stroke) -> Stroke:
        moved = moving(250 + 0j, -5j)(stroke)
        assert moved is not None
        return replace(moved, cubics=moved.cubics + shift)

    found, _, _ = put_together(case("ferry_smock"), "back", change)
    nodes = (found.pieces["back"].outlines or {})["M"]
    assert nodes[0].at == pytest.approx(0j, abs=1e-9)
    assert found.pieces["back"].grainline is not None
    assert found.pieces["back"].grainline[0].at == 60 + 120j


def test_names_and_corners_of_nodes_stay() -> None:
    found, _, _ = put_together(case("ferry_smock"), "sleeve", moving(-184 + 0j, -4j))
    nodes = (found.pieces["sleeve"].outlines or {})["M"]
    assert [node.name for node in nodes if node.name] == ["crown"]
    assert found.seams["armhole"].meet == (("shoulder", "sleeve.crown"),)


def test_a_notch_may_be_moved_taken_away_or_added() -> None:
    def moved(stroke: Stroke) -> Stroke:
        return replace(stroke, cubics=stroke.cubics + 5j) if stroke.meaning == "notch" else stroke

    found, told, before = put_together(case("ferry_smock"), "front", moved)
    assert [f.values["what"] for f in told] == [("the notch pitch",)]
    shift = Nest(found).notches["front", "pitch"] - Nest(before).notches["front", "pitch"]
    assert shift == pytest.approx([-5, -5, -5], abs=0.2)
    assert found.pieces["front"].outline == before.pieces["front"].outline

    gone, told, _ = put_together(case("ferry_smock"), "front", lambda s: None if s.meaning == "notch" else s)
    assert gone.pieces["front"].notches == {}
    assert "No longer drawn" in told[0].text


def test_what_needs_a_notch_that_is_gone_is_left_out_and_told() -> None:
    found, told, _ = put_together(
        case("ferry_smock"),
        "sleeve",
        lambda s: None if s.facts.get("name") == "front_pitch" else s,
    )
    assert "armhole" not in found.seams
    assert "recognised/no-longer-fits" in [f.rule.id for f in told]
    assert "seam armhole" in [f.values.get("what") for f in told]


def test_what_is_like_a_changed_piece_and_was_drawn_as_before_keeps_its_shape() -> None:
    document = sound()
    like = next(i for i, p in document["pieces"].items() if p.get("like") == "front")
    before = nest_of(document)
    node = before.cubics_of(before.line("front", before.pieces["front"].edges[1]), before.base)[0, 0]
    found, told, _ = put_together(document, "front", moving(complex(node), 4 + 3j))
    after = Nest(found)
    assert [f.place.piece for f in told] == ["front"]
    assert after.outline(like, 0) == pytest.approx(before.outline(like, 0))
    assert np.abs(
        after.outline("front", before.base) - before.outline("front", before.base)
    ).max() == pytest.approx(5)


def test_a_piece_that_is_not_drawn_is_kept_and_one_that_is_new_is_added() -> None:
    pattern, drawing = drawn(case("ferry_smock"))
    groups = tuple(
        replace(g, name="cuff", facts={**g.facts, "piece": "cuff", "name": "Cuff"})
        if g.name == "neck_binding"
        else g
        for g in drawing.groups
    )
    found, told = reconcile(recognise(replace(drawing, groups=groups)).pattern, pattern)
    assert list(found.pieces) == ["front", "back", "sleeve", "neck_binding", "cuff"]
    assert {f.place.piece for f in told} == {"neck_binding", "cuff"}
    assert read_pattern(write_pattern(found), "test").faults == ()


def test_a_document_in_inches_stays_in_inches() -> None:
    document = case("two_panel_skirt")
    pattern, _ = drawn(document)
    inches = replace(pattern, unit="in")
    drawing = draw_pattern(Nest(read_pattern(write_pattern(inches), "test").pattern or inches))
    back = read_pattern(write_pattern(inches), "test").pattern
    assert back is not None
    found, told = reconcile(recognise(drawing).pattern, back)
    assert write_pattern(found) == write_pattern(inches)
    assert told == ()


def test_lines_that_came_back_with_other_nodes_have_not_changed() -> None:
    pattern, drawing = drawn(case("ferry_smock"))

    def parted(stroke: Stroke) -> Stroke:
        middle = np.full(len(stroke.cubics), 0.5)
        rows = np.arange(len(stroke.cubics))
        halves = [
            parts(stroke.cubics, rows, 0.0 * middle, middle),
            parts(stroke.cubics, rows, middle, 2.0 * middle),
        ]
        if stroke.meaning != "stitch":
            return stroke
        return replace(stroke, cubics=np.stack(halves, axis=1).reshape(-1, 4))

    again = edited(drawing, "front", parted)
    seen = recognise(again).pattern
    kept, told = reconcile(seen, pattern, 0.05)
    assert (kept, told) == (pattern, ())
    # As finely as drawings of ours are kept, other nodes are a change.
    assert reconcile(seen, pattern)[1]
    corner = next(stroke for stroke in drawing.groups[0].strokes if stroke.meaning == "stitch").cubics[0, 0]
    moved = recognise(edited(again, "front", moving(corner, 0.3 + 0j))).pattern
    assert {finding.place.piece for finding in reconcile(moved, pattern, 0.05)[1]} == {"front"}
