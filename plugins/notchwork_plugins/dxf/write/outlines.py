"""Boundary and sew line of a piece, in one size, as closed lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Stroke
from notchwork_plugins.dxf.write.runs import TOUCH, Part, Run, put_together

Complexes = NDArray[np.complex128]


class Outlines(NamedTuple):
    """``boundary`` and ``sewn`` have the longest line first; more than one where the middle is left out (a whole circle skirt).

    Where no allowances are drawn the boundary is the outline of the edges, and nothing is sewn.
    """

    boundary: list[Run]
    sewn: list[Run]


def outlines(strokes: Sequence[Stroke]) -> Outlines:
    """Of the strokes of one size. Images of a piece that is drawn whole close the lines."""
    edges = [
        stroke for stroke in strokes if stroke.meaning in ("cut", "stitch", "fold") and "edge" in stroke.facts
    ]
    cuts = [
        Part("", stroke.cubics)
        for stroke in strokes
        if stroke.meaning == "cut" and not {"edge", "kind"} & set(stroke.facts)
    ]
    ring = put_together([Part(str(stroke.facts["edge"]), stroke.cubics) for stroke in edges], closed=True)
    if not cuts:
        return Outlines(ring, [])
    return Outlines(put_together(cuts, closed=True, joints=list(_folds_that_meet(edges))), ring)


def _folds_that_meet(edges: Sequence[Stroke]) -> Iterator[list[Complexes]]:
    """Folds that follow each other along the outline, end to end; nothing is cut between them."""
    folds = [stroke.cubics for stroke in edges if stroke.meaning == "fold" and len(stroke.cubics)]
    chain: list[Complexes] = []
    for fold in [*folds, *folds]:
        if chain and abs(fold[0, 0] - chain[-1][-1, 3]) > TOUCH:
            chain = []
        chain = [*chain, fold]
        if len(chain) > 1:
            yield chain


def mirror_lines(strokes: Sequence[Stroke]) -> list[tuple[str, complex, complex]]:
    """The folds by name, each from end to end of where the piece lies on it: a hem's allowance is folded too."""
    folds = [stroke for stroke in strokes if stroke.meaning == "fold" and len(stroke.cubics)]
    beyond = [stroke.cubics[k, k] for stroke in folds if "edge" not in stroke.facts for k in (0, -1)]
    found = []
    for fold in folds:
        if "edge" not in fold.facts:
            continue
        a, b = complex(fold.cubics[0, 0]), complex(fold.cubics[-1, 3])
        if abs(b - a) <= TOUCH:
            continue
        share = (np.array([a, b, *beyond]) - a) / (b - a)
        on = share[np.abs(share.imag) * abs(b - a) <= TOUCH].real
        found.append((str(fold.facts["edge"]), a + on.min() * (b - a), a + on.max() * (b - a)))
    return found
