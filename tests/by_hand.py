"""Shapes, strokes and texts written by hand in tests, as finding shapes in a drawing would hand them on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from notchwork.drawing import Facts, Stroke, Text
from notchwork.geometry import lines
from notchwork.model import Pattern
from notchwork.recognise.labels import seams_of
from notchwork.recognise.shape import Contour, Seen, Shape
from notchwork.recognise.words import WordsRead, read_words


def outline(nodes: Sequence[complex], corners: Sequence[int] | None = None) -> Contour:
    """A closed polyline; every node is a corner unless some are named."""
    cubics = lines(np.array(nodes, dtype=complex), closed=True)
    return Contour(
        cubics,
        tuple(range(len(nodes)) if corners is None else corners),
        np.full(len(nodes), -1, dtype=np.intp),
    )


def shape(nodes: Sequence[complex] | Contour, ident: str = "p1", **more: Any) -> Shape:
    """A shape whose outline is the stitch line, its name made up unless ``named`` says otherwise."""
    contour = nodes if isinstance(nodes, Contour) else outline(nodes)
    return Shape(**{"ident": ident, "named": False, "outline": contour, "kind": "stitch", **more})


def box(width: float, height: float, at: complex = 0j) -> list[complex]:
    """The corners of a rectangle: its edges are bottom, right, top, left."""
    return [at, at + width, at + complex(width, height), at + 1j * height]


def stroke(*nodes: complex, closed: bool = False, facts: Facts | None = None) -> Stroke:
    return Stroke(lines(np.array(nodes), closed=closed), closed=closed, facts=facts or {})


def text(words: str, at: complex, height: float = 5.0) -> Text:
    """Words whose middle is at a point."""
    return Text(at - 0.3j * height, words, height, anchor="middle")


def read(*shapes: Shape, **more: Any) -> WordsRead:
    return read_words(Seen(shapes, **more))


def told(read: WordsRead) -> set[str]:
    return {finding.rule.id.partition("/")[2] for finding in read.findings}


def with_seams(*shapes: Shape, **more: Any) -> tuple[Pattern, set[str]]:
    """The pattern with the seams its labels state, and the names of the rules that told of them."""
    from dataclasses import replace

    found = read(*shapes, **more)
    seams, telling = seams_of(found.pattern, found.pieces)
    return replace(found.pattern, seams=seams), {f.rule.id.partition("/")[2] for f in telling}
