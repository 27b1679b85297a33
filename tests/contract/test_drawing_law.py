"""What is drawn can be recognised: the nests of recognise(draw(p)) and of p agree in all that a drawing carries."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from drawn import Document, differences, small_patterns
from hypothesis import given, settings
from patterns import CASES, case, nest_of

from notchwork import jobs
from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Group, Stroke, as_svg
from notchwork.findings import Severity, plain_name
from notchwork.geometry import reverse, split
from notchwork.model import Opening, Pattern, Piece, Seam, Span
from notchwork.recognise.recognise import recognise
from notchwork.sewing import Nest

GARMENTS = sorted(path for path in CASES.rglob("*.pattern.json") if "measured" not in path.name)


def seen_again(nest: Nest, options: Options | None = None) -> Nest:
    return Nest(recognise(draw_pattern(nest, options)).pattern)


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
def test_every_garment_is_recognised_as_it_was_drawn(path: Path) -> None:
    pattern = read_pattern(path.read_bytes(), path.name).pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest)) == []


NAMES = [path.relative_to(CASES).as_posix().removesuffix(".pattern.json") for path in GARMENTS]


def pattern_named(name: str) -> Pattern:
    data = example("sound.pattern.json") if name == "demo" else (CASES / f"{name}.pattern.json").read_bytes()
    pattern = read_pattern(data, name).pattern
    assert pattern is not None
    return pattern


def lost(drawing: Drawing) -> set[object]:
    """What is told to fit no longer."""
    findings = recognise(drawing).findings
    return {f.values["what"] for f in findings if f.rule.id == "recognised/no-longer-fits"}


@pytest.mark.parametrize("name", ["demo", *NAMES])
def test_all_that_is_stated_of_what_is_drawn_comes_back_word_for_word(name: str) -> None:
    nest = Nest(pattern_named(name))
    drawing, pattern = draw_pattern(nest), nest.pattern
    again = recognise(drawing).pattern
    drawn = {
        ident: seam for ident, seam in pattern.seams.items() if _is_drawn(nest, of_seam(seam), whole=True)
    }
    assert list(again.seams.items()) == list(drawn.items())
    openings = {i: o for i, o in pattern.openings.items() if _is_drawn(nest, of_opening(o), whole=True)}
    assert again.openings == openings
    assert lost(drawing) == {
        ident
        for ident, spans in (
            *((ident, of_seam(seam)) for ident, seam in pattern.seams.items() if ident not in drawn),
            *((ident, of_opening(o)) for ident, o in pattern.openings.items() if ident not in openings),
        )
        if _is_drawn(nest, spans, whole=False)
    }
    for ident, piece in again.pieces.items():
        mine = nest.pieces[ident].written
        assert edges_words(piece) == edges_words(mine)
        assert nodes_words(piece) == nodes_words(mine)
    assert again.materials == {
        ident: material if material.name else replace(material, name=plain_name(ident))
        for ident, material in pattern.materials.items()
        if ident in again.materials
    }


def of_seam(seam: Seam) -> list[Span]:
    return [span for side in seam.sides for span in side.spans]


def of_opening(opening: Opening) -> list[Span]:
    return [span for row in (*(opening.sections or ()), *(opening.lips or ())) for span in row]


def _is_drawn(nest: Nest, spans: Sequence[Span], whole: bool) -> bool:
    shapes = [nest.pieces[span.piece].has_shape for span in spans]
    return all(shapes) if whole else any(shapes)


def edges_words(piece: Piece) -> dict[str, tuple[object, ...]]:
    """What edges state that no line shows."""
    words = {
        name: (edge.trim_to, edge.trim_when, edge.finish, edge.cut_corner, edge.extra)
        for name, edge in piece.edges.items()
        if edge is not None
    }
    return {name: said for name, said in words.items() if any(said)}


def nodes_words(piece: Piece) -> set[tuple[object, ...]]:
    """The nodes with words of their own: on which line, in which size, and what they say. Made-up names are no words."""
    lines: list[tuple[object, ...]] = [(None, piece.outline or ()), *(piece.outlines or {}).items()]
    lines += [(name, line.line or ()) for name, line in piece.inner.items() if line is not None]
    lines += [(name, hole.line) for name, hole in piece.cutouts.items() if hole is not None]
    return {
        (node.name, node.corner, node.cut_corner)
        for _, nodes in lines
        for node in nodes
        if (node.name and not str(node.name).endswith("_start")) or node.corner or node.cut_corner
    }


@pytest.mark.parametrize("name", ["demo", *NAMES])
def test_without_its_document_a_drawing_is_checked_with_no_other_alarm(name: str) -> None:
    pattern = pattern_named(name)
    if not any(graded.has_shape for graded in Nest(pattern).pieces.values()):
        pytest.skip("nothing of it is drawn")

    def alarms(what: jobs.Loaded | Pattern) -> set[str]:
        return {graded.rule.id for graded in jobs.check(what).at_least(Severity.WARNING)}

    bare = jobs.load(as_svg(draw_pattern(Nest(pattern))).encode(), "bare.svg")
    # Where not all is drawn, more is told of what is missing.
    missing = {"recognised/no-longer-fits"} if name == "every_key" else set()
    assert alarms(bare) - alarms(pattern) == {"recognised/document-gone"} | missing


def with_strokes(drawing: Drawing, change: Callable[[Group, Stroke], Stroke]) -> Drawing:
    return replace(
        drawing,
        groups=tuple(replace(g, strokes=tuple(change(g, s) for s in g.strokes)) for g in drawing.groups),
    )


def is_edge(group: Group, stroke: Stroke, piece: str, edge: str) -> bool:
    return (group.name, stroke.facts.get("edge"), stroke.meaning) == (piece, edge, "stitch")


def test_a_node_that_was_moved_along_its_edge_has_its_name_no_more() -> None:
    drawing = draw_pattern(nest_of(case("ferry_smock")))

    def moved(group: Group, stroke: Stroke) -> Stroke:
        if not is_edge(group, stroke, "sleeve", "cap"):
            return stroke
        cubics = stroke.cubics.copy()
        cubics[0, 3] += 8
        cubics[1, 0] += 8
        return replace(stroke, cubics=cubics)

    edited = with_strokes(drawing, moved)
    assert lost(edited) == {"node crown", "armhole"}
    assert "armhole" not in recognise(edited).pattern.seams


def test_a_node_keeps_its_name_where_its_line_has_more_nodes() -> None:
    nest = nest_of(case("ferry_smock"))

    def halved(group: Group, stroke: Stroke) -> Stroke:
        if not is_edge(group, stroke, "sleeve", "cap"):
            return stroke
        return replace(stroke, cubics=np.stack([*split(stroke.cubics[0], 0.4), *stroke.cubics[1:]]))

    again = recognise(with_strokes(draw_pattern(nest), halved)).pattern
    assert again.seams == nest.pattern.seams
    [crown] = [node for node in (again.pieces["sleeve"].outlines or {})["M"] if node.name]
    [meant] = [node for node in nest.pattern.pieces["sleeve"].outline or () if node.name]
    assert crown.name == "crown"
    assert crown.at == pytest.approx(meant.at, abs=0.001)


@pytest.mark.parametrize("all_of_them", [False, True])
def test_words_of_corners_are_left_out_where_lines_were_turned_round(all_of_them: bool) -> None:
    drawing = draw_pattern(Nest(pattern_named("sound/raglan_tee")))
    assert "point" in {corner for _, corner, _ in nodes_words(recognise(drawing).pattern.pieces["sleeve"])}

    def turned(group: Group, stroke: Stroke) -> Stroke:
        said = stroke.meaning in ("stitch", "fold") and (
            all_of_them or "nodes" in str(stroke.facts.get("states"))
        )
        return replace(stroke, cubics=reverse(stroke.cubics)) if said else stroke

    edited = with_strokes(drawing, turned)
    assert "corner" in lost(edited)
    assert nodes_words(recognise(edited).pattern.pieces["sleeve"]) == set()


def test_what_an_edge_states_goes_with_its_name() -> None:
    nest = Nest(pattern_named("demo"))

    def renamed(group: Group, stroke: Stroke) -> Stroke:
        if not is_edge(group, stroke, "skirt_back", "center"):
            return stroke
        return replace(stroke, facts={**stroke.facts, "edge": "middle"})

    edited = with_strokes(draw_pattern(nest), renamed)
    assert {"back_zip", "skirt_center_back"} <= lost(edited)
    assert recognise(edited).pattern.openings == {}


def test_a_finish_with_a_piece_that_is_not_drawn_is_left_out_and_the_rest_kept() -> None:
    nest = Nest(pattern_named("demo"))
    alone = draw_pattern(nest, Options(pieces=("front",)))
    edges = recognise(alone).pattern.pieces["front"].edges
    assert "finish" in lost(alone)
    assert edges["waist"] == nest.pattern.pieces["front"].edges["waist"]
    assert edges["neck"].finish is None


@pytest.mark.parametrize(
    "states",
    [
        "{",
        "[" * 5000,
        "7",
        '{"edge":7,"openings":[],"nodes":{"a":1}}',
        '{"nodes":[[0.5],[2,{"name":"a"}],["0",{}],[true,{"name":{}}]]}',
        '{"edge":{"allowance":99,"fold":true,"length":5}}',
        '{"edge":{"trim_to":"wide","finish":{"kind":"knitted"},"unknown":1}}',
        '{"nodes":[[0,{"name":"side"}],[0,{"name":7}],[0,{"corner":"round","cut_corner":[]}]]}',
        '{"openings":{"a":{"kind":"zip","sections":[["nowhere.side"]]},"b":[],"":null}}',
    ],
)
def test_statements_that_make_no_sense_change_nothing(states: str) -> None:
    drawing = draw_pattern(nest_of(case("two_panel_skirt")), Options(document=False))
    plain = recognise(drawing).pattern
    damaged = with_strokes(
        drawing,
        lambda group, s: replace(s, facts={**s.facts, "states": states}) if "edge" in s.facts else s,
    )
    assert recognise(damaged).pattern == plain


@pytest.mark.parametrize(
    "options",
    [Options(copies=True), Options(unfolded=True), Options(sizes=("M",)), Options(allowances=False)],
    ids=["copies", "unfolded", "one-size", "no-allowance"],
)
def test_whatever_was_chosen_what_is_stated_comes_back(options: Options) -> None:
    nest = nest_of(case("ferry_smock"))
    drawing = draw_pattern(nest, options)
    again = recognise(drawing).pattern
    assert lost(drawing) == set()
    assert again.seams == nest.pattern.seams
    for ident, piece in again.pieces.items():
        assert edges_words(piece) == edges_words(nest.pieces[ident].written)
        assert nodes_words(piece) == nodes_words(nest.pieces[ident].written)


def test_seams_of_pieces_that_are_not_drawn_do_not_come_back() -> None:
    nest = nest_of(case("ferry_smock"))
    alone = recognise(draw_pattern(nest, Options(pieces=("front", "sleeve"))))
    assert set(alone.pattern.seams) == {
        name
        for name, seam in nest.pattern.seams.items()
        if {span.piece for span in of_seam(seam)} <= {"front", "sleeve"}
    }


def test_nothing_is_stated_where_the_document_is_to_stay_at_home() -> None:
    drawing = draw_pattern(Nest(pattern_named("demo")), Options(document=False))
    parts = [part for g in drawing.groups for part in (*g.strokes, *g.dots, *g.texts)]
    assert not any("states" in part.facts for part in parts)
    again = recognise(drawing).pattern
    assert not again.seams
    assert not again.openings
    assert not any(edges_words(piece) for piece in again.pieces.values())


def test_copies_are_no_pieces_of_their_own() -> None:
    nest = nest_of(case("ferry_smock"))
    drawing = draw_pattern(nest, Options(copies=True))
    assert sum("copy" in group.facts for group in drawing.groups) > 0
    assert differences(nest, Nest(recognise(drawing).pattern)) == []


def test_a_piece_of_which_only_copies_are_drawn_is_told() -> None:
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["cut"] = [{"material": "outer", "count": 1, "hand": "mirrored"}]
    document["materials"] = {"outer": {}} | document.get("materials", {})
    found = recognise(draw_pattern(nest_of(document), Options(copies=True)))
    assert "sleeve" not in found.pattern.pieces
    assert "recognised/copies-only" in {finding.rule.id for finding in found.findings}


def test_the_demo_is_recognised_as_it_was_drawn() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest)) == []


def test_a_piece_drawn_whole_is_still_a_half_on_its_fold() -> None:
    pattern = read_pattern((CASES / "ferry_smock.pattern.json").read_bytes(), "smock").pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest, Options(unfolded=True))) == []
    assert differences(nest, seen_again(nest, Options(allowances=False))) == []


@settings(max_examples=25, deadline=None)
@given(small_patterns())
def test_any_pattern_is_recognised_as_it_was_drawn(document: Document) -> None:
    nest = nest_of(document)
    assert differences(nest, seen_again(nest)) == []


@pytest.mark.parametrize(
    ("pointer", "value", "what"),
    [
        ("/pieces/front/outline/4/at", [250, 400.01], "line side"),
        ("/pieces/back/notches/pitch/at", ["side", 90.01], "notch pitch"),
        ("/pieces/back/notches/pitch/kind", "single", "notch pitch"),
        ("/pieces/sleeve/grainline", [[0, 60], [1, 360]], "grain"),
        ("/pieces/front/edges/center/fold", False, "folds"),
        ("/pieces/sleeve/cut/0/count", 4, "cut orders"),
        ("/pieces/front/edges/hem/allowance", 31, "allowance of hem"),
        ("/grade_rules/tip/L", [4, -2], "line armhole in L"),
    ],
)
def test_the_comparison_sees_what_differs(pointer: str, value: object, what: str) -> None:
    document = case("ferry_smock")
    *path, last = pointer.removeprefix("/").split("/")
    holder: Any = document
    for key in path:
        holder = holder[int(key) if isinstance(holder, list) else key]
    holder[int(last) if isinstance(holder, list) else last] = value
    assert any(what in line for line in differences(nest_of(case("ferry_smock")), nest_of(document)))
