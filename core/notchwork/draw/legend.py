"""What the lines of a drawing mean, and a square to hold a ruler against."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.signs import arrow
from notchwork.draw.words import shortened
from notchwork.drawing import Facts, Group, Meaning, Stroke, Text
from notchwork.geometry import circle, lines
from notchwork.model import Unit

Complexes = NDArray[np.complex128]

SAMPLE, ROW, TYPE = 40.0, 9.0, 5.0
"""mm: length of a sample, height of a row, height of type."""
SQUARE = 100.0
"""mm: the side of the test square."""

RING = 3.0
"""mm: the radius of a letter's ring."""
WORDS: dict[Meaning, str] = {
    "cut": "cut line",
    "stitch": "stitch line",
    "fold": "fold: place on the fold of the cloth",
    "opened": "fold of the half piece, drawn whole here",
    "grain": "lengthwise thread",
    "notch": "notch",
    "dart": "dart",
    "pleat": "pleat",
    "match": "seam: sewn to the edge with the same letter",
    "limit": "where gathers, ease or an opening begin or end",
    "casing": "casing",
    "fold-back": "folded back here",
    "placement": "placement",
    "topstitch": "topstitching",
    "slash": "slash",
    "inner": "drawn, not cut",
}


def legend(groups: list[Group], sizes: tuple[str, ...], base: str | None) -> Group:
    """A sample and a word for every kind of line that is drawn, and for every size."""
    drawn = {stroke.meaning for group in groups for stroke in group.strokes}
    rows: list[tuple[tuple[Stroke, ...], str]] = []
    for meaning, words in WORDS.items():
        if meaning in drawn:
            facts: Facts = {"size": base} if base in sizes else {}
            rows.append((tuple(_sampled(meaning, -1j * ROW * len(rows), facts)), words))
    if len(sizes) > 1:
        for size in sizes:
            words = f"size {size}, drafted" if size == base else f"size {size}"
            sample = Stroke(_level(-1j * ROW * len(rows)), "cut", facts={"size": size})
            rows.append(((sample,), shortened(words)))
    texts = [
        Text(complex(SAMPLE + 6, -ROW * k - 0.35 * TYPE), words, TYPE, "legend")
        for k, (_, words) in enumerate(rows)
    ]
    strokes = tuple(stroke for sample, _ in rows for stroke in sample)
    return Group("legend", strokes, texts=tuple(texts), facts={"kind": "legend"})


def test_square(unit: Unit) -> Group:
    """A square of 100 mm in one closed line, and what is to be done with it."""
    inches = " (3 15/16 in)" if unit == "in" else ""
    said = (
        "Test square",
        f"{SQUARE:g} × {SQUARE:g} mm{inches}",
        "Measure it both ways",
        "before you cut.",
        "If it is off, nothing will fit:",
        "print again at 100 %,",
        "not fitted to the page.",
    )
    corners = np.array([0, SQUARE, complex(SQUARE, SQUARE), complex(0, SQUARE)])
    outline = Stroke(lines(corners, closed=True), "legend", True, {"kind": "test-square", "width": SQUARE})
    texts = tuple(
        Text(complex(8, SQUARE - 18 - 1.6 * TYPE * k), words, TYPE, "name" if k == 0 else "legend")
        for k, words in enumerate(said)
    )
    return Group("test-square", (outline,), texts=texts, facts={"kind": "test-square", "name": "Test square"})


def _sampled(meaning: Meaning, left: complex, facts: Facts) -> Iterator[Stroke]:
    """A piece of line as it is drawn on pieces: the thread with its heads, a notch across a stitch line, a limit as a tick with
    its arrow, a letter's ring."""
    middle, right = left + SAMPLE / 2, left + SAMPLE
    tick = lines(np.array([middle - 0.35j * ROW, middle + 0.35j * ROW]))
    match meaning:
        case "grain":
            yield from (Stroke(run, meaning, facts=facts) for run in arrow(left, right, both=True))
        case "notch":
            yield Stroke(_level(left), "stitch", facts=facts)
            yield Stroke(tick, meaning, facts=facts)
        case "limit":
            yield Stroke(tick, meaning, facts=facts)
            shown = arrow(middle, middle + SAMPLE / 4, both=False)
            yield from (Stroke(run, meaning, facts=facts) for run in shown)
        case "match":
            yield Stroke(circle(middle, RING, 4), meaning, True, facts)
        case _:
            yield Stroke(_level(left), meaning, facts=facts)


def _level(left: complex) -> Complexes:
    return lines(np.array([left, left + SAMPLE]))
