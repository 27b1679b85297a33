"""A bag of our own: a panel and three sections, their allowance in strips of a darker colour, joined by labels."""

from __future__ import annotations

import pytest
from sketches import box, drawing, words

from notchwork import jobs
from notchwork.drawing import Drawing, Stroke, Text
from notchwork.findings import Severity
from notchwork.recognise import recognise

CLOTH, DARK = "#c8b040", "#5a4a10"
WIDE, STRIP = 320.0, 10.0


def section(
    y: float, tall: float, name: str, top: str, bottom: str, side: str
) -> tuple[list[Stroke], list[Text]]:
    strokes = [box(0, y, WIDE, tall, CLOTH), *strips(0, y, WIDE, tall)]
    texts = [words(100, y + tall / 2, name, 8.0)]
    texts += [words(100, y + tall - 9, top)] if top else []
    texts += [words(100, y + 5, bottom)]
    texts += [words(5, y + tall / 2, side), words(WIDE - 9, y + tall / 2, side)]
    return strokes, texts


def strips(x: float, y: float, wide: float, tall: float) -> list[Stroke]:
    return [
        box(x - STRIP, y + tall, wide + 2 * STRIP, STRIP, DARK),
        box(x - STRIP, y - STRIP, wide + 2 * STRIP, STRIP, DARK),
        box(x - STRIP, y, STRIP, tall, DARK),
        box(x + wide, y, STRIP, tall, DARK),
    ]


def bag(depth: float = 60.0) -> Drawing:
    """Sections 320 round; the panel is 100 by ``depth``, so that 60 fits."""
    parts = [
        section(600, 150, "upper part", "", "B", "D"),
        section(420, 90, "middle part", "B", "C", "E"),
        section(250, 80, "lower part", "C", "A", "F"),
    ]
    strokes = [stroke for drawn, _ in parts for stroke in drawn]
    texts = [text for _, said in parts for text in said]
    strokes += [box(100, 60, 100, depth, CLOTH), *strips(100, 60, 100, depth)]
    texts += [words(135, 60 + depth / 2, "base", 8.0), words(150, 64, "A"), words(150, 60 + depth - 8, "A")]
    texts += [words(104, 60 + depth / 2, "A"), words(192, 60 + depth / 2, "A")]
    # The legend says what the dark colour is.
    strokes += [box(-400, 300, 20, 20, DARK), box(-400, 260, 20, 20, CLOTH)]
    texts += [words(-370, 306, "seam allowance"), words(-370, 266, "canvas")]
    return drawing(*strokes, texts=texts)


def test_pieces_allowances_and_seams() -> None:
    pattern = recognise(bag()).pattern
    assert set(pattern.pieces) == {"upper_part", "middle_part", "lower_part", "base"}
    assert {piece.allowance for piece in pattern.pieces.values()} == {STRIP}
    assert set(pattern.seams) == set("ABCDEF")
    assert {name for name, seam in pattern.seams.items() if seam.closed} == set("ABC")
    base = next(side for side in pattern.seams["A"].sides if len(side.spans) == 4)
    assert {span.piece for span in base.spans} == {"base"}


def test_the_stated_equal_lengths_are_judged() -> None:
    assert jobs.check(recognise(bag()).pattern, ["seams"]).at_least(Severity.WARNING) == ()
    [found] = jobs.check(recognise(bag(depth=63.0)).pattern, ["seams"]).at_least(Severity.WARNING)
    assert (found.rule.id, found.finding.place.seam) == ("seams/unequal-length", "A")
    assert abs(found.rows[0].row.off) == pytest.approx(6.0, abs=0.01)
