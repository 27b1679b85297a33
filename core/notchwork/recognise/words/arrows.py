"""The grainline among the strokes of a piece: a line with arrow heads, or with the word beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.recognise.words.grammar import says_grain
from notchwork.recognise.words.sketch import Sketch

Complexes = NDArray[np.complex128]

SHORTEST = 20.0
"""mm: a shorter arrow is no grainline."""
HEAD = 0.35
"""A head's strokes are at most this share of the shaft."""
LEAST_SPREAD, MOST_SPREAD = 8.0, 65.0
"""Degrees by which a head's wings stand off its shaft."""
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


def grain_arrow(sketch: Sketch, texts: Sequence[Text]) -> Arrow | None:
    """The arrow that shows the grain; None where there is none. A labelled one goes before one with two heads, a longer one
    before a shorter."""
    said = [text for text in texts if says_grain(text.words)]
    found = [arrow for arrow in _arrows(sketch, said) if arrow.labelled or arrow.heads]
    return max(found, key=lambda arrow: (arrow.labelled, arrow.heads, arrow.length), default=None)


def _arrows(sketch: Sketch, said: Sequence[Text]) -> Iterator[Arrow]:
    nodes = np.concatenate([sketch.cubics[:, 0], sketch.cubics[:, 3]])
    owner = np.concatenate([sketch.owner, sketch.owner])
    for k in sketch.left(~sketch.closed & (sketch.length >= SHORTEST)):
        own = sketch.owner == k
        arc = sketch.arc_of_row[own]
        longest = int(arc.argmax())
        length = float(arc[longest])
        if length < SHORTEST or not sketch.straight_row[own][longest]:
            continue
        if len(arc) > 1 and np.delete(arc, longest).max() > HEAD * length:
            continue
        shaft = sketch.strokes[k].cubics[longest]
        a, b = complex(shaft[0]), complex(shaft[3])
        if not sketch.rim.inside(np.array([a, b]), -1.0).all():
            continue
        parts, heads = {k}, 0
        for tip in (a, b):
            head = _head(k, tip, a + b - tip, nodes, owner, sketch)
            heads += head is not None
            parts |= head or set()
        labelled = any(_beside(text, a, b) for text in said)
        yield Arrow(a, b, frozenset(parts), heads, labelled)


def _head(
    shaft: int,
    tip: complex,
    tail: complex,
    nodes: Complexes,
    owner: NDArray[np.intp],
    sketch: Sketch,
) -> set[int] | None:
    """The strokes of a head at one end of a shaft, none where it was drawn in one go with it; None where there is no head.

    A head spreads to both sides of its shaft, away from the tip.
    """
    length = abs(tail - tip)
    far = np.abs(nodes - tip)
    touching = set(owner[far <= max(1.0, 0.03 * length)].tolist())
    parts = {
        k
        for k in touching - {shaft} - sketch.used
        if sketch.length[k] <= 3 * HEAD * length and far[owner == k].max() <= HEAD * length
    }
    near = (far > 0.5) & (far <= HEAD * length) & np.isin(owner, [shaft, *parts])
    spread = np.degrees(np.angle((nodes[near] - tip) * np.conj(tail - tip)))
    left, right = (((way >= LEAST_SPREAD) & (way <= MOST_SPREAD)).any() for way in (spread, -spread))
    return parts if left and right else None


def _beside(text: Text, a: complex, b: complex) -> bool:
    corners = np.array([*text.box, sum(text.box) / 4])
    along = (b - a) / abs(b - a)
    at = (corners - a) * np.conj(along)
    off = np.hypot(np.maximum(0.0, np.maximum(-at.real, at.real - abs(b - a))), np.abs(at.imag))
    return bool(off.min() <= max(BESIDE * text.height, 15.0))
