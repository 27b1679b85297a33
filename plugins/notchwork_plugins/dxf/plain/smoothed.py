"""Polylines that were written here for curves, and say so, are those curves again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from notchwork.drawing import Stroke
from notchwork.geometry import fitted
from notchwork_plugins.dxf.said import Chords

Chorded = tuple[Stroke, Chords]


def smoothed(lines: Sequence[Chorded]) -> tuple[list[Stroke], float]:
    """Each stroke as the curve that it stands for, and how far (mm) chords of any of them lay beside it.

    One that has not as many vertices as it says was edited since, and stays as it is drawn.
    """
    whole = [k for k, (stroke, chords) in enumerate(lines) if len(_vertices(stroke)) == chords.vertices]
    strokes = [stroke for stroke, _ in lines]
    if not whole:
        return strokes, 0.0
    several = [lines[k] for k in whole]
    off = max(chords.off for _, chords in several)
    made = fitted(
        [_vertices(stroke) for stroke, _ in several],
        [stroke.closed for stroke, _ in several],
        [chords.corners for _, chords in several],
        [chords.nodes for _, chords in several],
        off,
    )
    for k, fit in zip(whole, made, strict=True):
        # It begins where it began: fitting begins a closed line at a corner.
        first = int(fit.source.argmin()) if strokes[k].closed else 0
        strokes[k] = replace(strokes[k], cubics=np.roll(fit.cubics, -first, axis=0))
    return strokes, off


def _vertices(stroke: Stroke) -> np.ndarray[tuple[int], np.dtype[np.complex128]]:
    ends = stroke.cubics[:, 0]
    return ends if stroke.closed else np.append(ends, stroke.cubics[-1, 3])
