"""Letters of seams, limits of gathers and ease, ends of zips, numbers of pieces."""

from __future__ import annotations

import numpy as np
import pytest

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Group, Text
from notchwork.geometry import nearest
from notchwork.sewing import Nest
from notchwork.sewing.letters import letters


@pytest.fixture(scope="module")
def nest() -> Nest:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    return Nest(pattern)


@pytest.fixture(scope="module")
def drawing(nest: Nest) -> Drawing:
    return draw_pattern(nest)


def group(drawing: Drawing, name: str) -> Group:
    return next(g for g in drawing.groups if g.name == name)


def words(drawing: Drawing, name: str, meaning: str) -> list[Text]:
    return [text for text in group(drawing, name).texts if text.meaning == meaning]


def test_every_edge_that_a_seam_takes_bears_its_letter(nest: Nest, drawing: Drawing) -> None:
    known = letters(nest.pattern)
    wanted = {
        (span.piece, span.line, known[ident])
        for ident, seam in nest.pattern.seams.items()
        for side in seam.sides
        for span in side.spans
    }
    found = {
        (g.name, text.facts["edge"], text.words)
        for g in drawing.groups
        for text in g.texts
        if text.meaning == "match"
    }
    assert found == wanted


def test_a_letter_stands_beside_its_own_stretch(nest: Nest, drawing: Drawing) -> None:
    smallest = 0
    for name, graded in nest.pieces.items():
        for text in words(drawing, name, "match"):
            middle = sum(text.box) / 4
            line = nest.cubics_of(graded.lines[str(text.facts["edge"])], smallest)
            assert nearest(line, np.array([middle])).distance[0] < 20.0


def test_no_words_of_the_demo_lie_on_each_other(drawing: Drawing) -> None:
    # What a box holds of another's points; sizes' names stand on their lines, and a ring is wider than its letter.
    for g in drawing.groups:
        for k, one in enumerate(g.texts):
            a, b, _, d = one.box
            for other in g.texts[k + 1 :]:
                corners = np.array([*other.box, sum(other.box) / 4])
                off = (corners - a) * np.conj(b - a) / abs(b - a)
                inside = (off.real > 0) & (off.real < abs(b - a)) & (off.imag > 0) & (off.imag < abs(d - a))
                assert not inside.any(), (g.name, one.words, other.words)


def test_ease_between_notches_is_bounded_where_it_begins_and_ends(nest: Nest, drawing: Drawing) -> None:
    limits = words(drawing, "sleeve", "limit")
    assert sorted(text.words for text in limits) == ["ease from here", "ease to here"]
    ticks = [
        s
        for s in group(drawing, "sleeve").strokes
        if s.meaning == "limit" and s.facts.get("size") == "M" and "kind" in s.facts
    ]
    feet = sorted((complex(s.cubics[0, 0]) for s in ticks), key=lambda z: z.real)
    size = nest.base
    pitches = [
        nest.point(nest.line("sleeve", "cap"), nest.notches["sleeve", name], size)
        for name in ("front_pitch", "back_pitch")
    ]
    assert feet == pytest.approx(sorted(pitches, key=lambda z: z.real), abs=0.01)


def test_a_whole_side_is_gathered_all_along(drawing: Drawing) -> None:
    assert [text.words for text in words(drawing, "upper_flounce", "limit")] == ["gather all along"]


def test_the_zip_ends_inside_its_edge_only(nest: Nest, drawing: Drawing) -> None:
    assert [text.words for text in words(drawing, "skirt_back", "limit")] == ["zip ends here"]
    assert not [text for text in words(drawing, "back", "limit") if "zip" in text.words]
    line = nest.line("skirt_back", "center")
    ticks = [s for s in group(drawing, "skirt_back").strokes if s.meaning == "limit"]
    for size, stroke in enumerate(ticks):
        at = nest.point(line, nest.notches["skirt_back", "zip_end"], size)
        assert complex(stroke.cubics[0, 0]) == pytest.approx(at, abs=0.01)


def test_pieces_are_numbered_in_the_patterns_order_whatever_is_chosen(nest: Nest) -> None:
    alone = draw_pattern(nest, Options(pieces=("sleeve",), sizes=("M",)))
    [text] = [text for text in group(alone, "sleeve").texts if text.facts.get("kind") == "numbering"]
    assert text.words == f"piece {list(nest.pieces).index('sleeve') + 1} of {len(nest.pieces)}, size M"


def test_letters_say_nothing_of_seams_where_the_document_is_to_stay_at_home(nest: Nest) -> None:
    drawing = draw_pattern(nest, Options(document=False))
    assert not any("states" in text.facts for g in drawing.groups for text in g.texts)
