"""What the lines of a drawing mean, and a square to hold a ruler against."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Facts, Group, Meaning, Stroke, Text
from notchwork.geometry import lines
from notchwork.model import Unit

Complexes = NDArray[np.complex128]

SAMPLE, ROW, TYPE = 40.0, 9.0, 5.0
"""mm: length of a sample, height of a row, height of type."""
SQUARE = 100.0
"""mm: the side of the test square."""

WORDS: dict[Meaning, str] = {
    "cut": "cut line",
    "stitch": "stitch line",
    "fold": "fold: place on the fold of the cloth",
    "opened": "fold of the half piece, drawn whole here",
    "grain": "lengthwise thread",
    "notch": "notch",
    "dart": "dart",
    "pleat": "pleat",
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
    rows: list[tuple[Stroke, str]] = []
    for meaning, words in WORDS.items():
        if meaning in drawn:
            facts: Facts = {"size": base} if base in sizes else {}
            rows.append((Stroke(_sample(len(rows), meaning == "notch"), meaning, facts=facts), words))
    if len(sizes) > 1:
        for size in sizes:
            words = f"size {size}, drafted" if size == base else f"size {size}"
            rows.append((Stroke(_sample(len(rows)), "cut", facts={"size": size}), words))
    texts = [
        Text(complex(SAMPLE + 6, -ROW * k - 0.35 * TYPE), words, TYPE, "legend")
        for k, (_, words) in enumerate(rows)
    ]
    return Group("legend", tuple(stroke for stroke, _ in rows), texts=tuple(texts), facts={"kind": "legend"})


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


def _sample(row: int, upright: bool = False) -> Complexes:
    left, right = (
        (complex(SAMPLE / 2, -0.35 * ROW), complex(SAMPLE / 2, 0.35 * ROW)) if upright else (0j, SAMPLE + 0j)
    )
    down = -1j * ROW * row
    return lines(np.array([left + down, right + down]))
