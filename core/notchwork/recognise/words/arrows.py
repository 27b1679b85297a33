"""The grainline among the strokes of a piece: a line with arrow heads, or with the word beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Stroke, Text
from notchwork.geometry import is_straight, lengths
from notchwork.recognise.words.grammar import says_grain
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.signs import left_of

SHORTEST = 20.0
"""mm: a shorter arrow is no grainline."""
HEAD = 0.35
"""A head's strokes are at most this share of the shaft."""
BESIDE = 4.0
"""How many heights of type a word may stand from its line."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """A straight shaft, the numbers of the strokes it is made of, how many ends have heads, and whether a word says grain."""

    start: complex
    stop: complex
    strokes: frozenset[int]
    heads: int
    labelled: bool

    @property
    def length(self) -> float:
        return abs(self.stop - self.start)


def grain_arrow(strokes: Sequence[Stroke], used: set[int], texts: Sequence[Text], rim: Rim) -> Arrow | None:
    """The arrow that shows the grain; None where there is none. A labelled one goes before one with two heads, a longer one
    before a shorter."""
    said = [text for text in texts if says_grain(text.words)]
    best: Arrow | None = None
    for arrow in _arrows(strokes, used, said, rim):
        if best is None or _rank(arrow) > _rank(best):
            best = arrow
    return best


def _rank(arrow: Arrow) -> tuple[bool, int, float]:
    return (arrow.labelled, arrow.heads, arrow.length)


def _arrows(strokes: Sequence[Stroke], used: set[int], said: Sequence[Text], rim: Rim) -> list[Arrow]:
    left = left_of(strokes, used)
    short = [(k, s, float(lengths(s.cubics).sum())) for k, s in left]
    found: list[Arrow] = []
    for k, stroke in left:
        if stroke.closed:
            continue
        arc = lengths(stroke.cubics)
        longest = int(arc.argmax())
        length = float(arc[longest])
        if length < SHORTEST or not is_straight(stroke.cubics)[longest]:
            continue
        others = np.delete(arc, longest)
        if len(others) and others.max() > HEAD * length:
            continue
        a, b = complex(stroke.cubics[longest, 0]), complex(stroke.cubics[longest, 3])
        if not rim.inside(np.array([a, b]), -1.0).all():
            continue
        reach = max(1.0, 0.03 * length)
        heads = [False, False]
        own = (
            np.delete(stroke.cubics, longest, axis=0)[:, [0, 3]].ravel()
            if len(others)
            else np.zeros(0, complex)
        )
        parts = {k}
        for end, tip in enumerate((a, b)):
            if (
                len(own)
                and np.abs(own - tip).min() <= HEAD * length
                and np.count_nonzero(np.abs(own - tip) <= reach)
            ):
                heads[end] = True
            for other, head, size in short:
                if other == k or size > 3 * HEAD * length:
                    continue
                nodes = head.cubics[:, [0, 3]].ravel()
                if np.abs(nodes - tip).min() <= reach and np.abs(nodes - tip).max() <= HEAD * length:
                    heads[end] = True
                    parts.add(other)
        labelled = any(_beside(text, a, b) for text in said)
        if labelled or any(heads):
            found.append(Arrow(a, b, frozenset(parts), sum(heads), labelled))
    return found


def _beside(text: Text, a: complex, b: complex) -> bool:
    corners = np.array([*text.box, sum(text.box) / 4])
    along = (b - a) / abs(b - a)
    at = (corners - a) * np.conj(along)
    off = np.hypot(np.maximum(0.0, np.maximum(-at.real, at.real - abs(b - a))), np.abs(at.imag))
    return bool(off.min() <= max(BESIDE * text.height, 15.0))
