"""How well the two sides of a seam meet on the way: the judge between readings that joints and hands allow alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from notchwork.model import Pattern, Seam
from notchwork.recognise.labels.chains import Chain, Reading
from notchwork.recognise.words import PieceRead
from notchwork.sewing import Nest, Walk

Complexes = NDArray[np.complex128]

UNEQUAL, CROSSED = 10.0, 100.0
"""mm that a notch without partner, and a pair of stations in crossed order, count for."""
PLACES = 24
"""Where along a seam its sides' directions are compared."""
ACROSS = 0.1
"""Pieces lie mirrored as often as not, so left and right weigh less than up and down."""


def mismatches(pattern: Pattern, candidates: Mapping[str, Seam]) -> dict[str, float]:
    """By name, how badly (mm) a candidate's stations meet; all are walked in one nest."""
    nest = Nest(replace(pattern, seams=dict(candidates)))
    return {name: _mismatch(walk) for name, walk in nest.walks.items()}


def _mismatch(walk: Walk) -> float:
    total = 0.0
    for comparison in walk.others:
        plain = [np.abs(np.nan_to_num(i.difference)).max() for i in comparison.intervals if not i.full]
        total += float(max(plain, default=0.0))
        total += UNEQUAL * len(comparison.pairing.unequal) + CROSSED * len(comparison.pairing.crossed)
    return total


def likeness(reading: Reading, pieces: Mapping[str, PieceRead]) -> float:
    """How far both sides run the same way on the drawing, from -1 to 1: pieces are mostly drawn the same way up."""
    one, other = (_directions(chain, pieces) for chain in (reading.one, reading.other))
    return float(np.mean(one.imag * other.imag + ACROSS * one.real * other.real))


def _directions(chain: Chain, pieces: Mapping[str, PieceRead]) -> Complexes:
    """The unit directions (PLACES,) at even steps along a side."""
    runs = [pieces[w.edge.piece].drawn.rim.polyline(w.edge.edge)[:: 1 if w.forward else -1] for w in chain]
    steps = np.concatenate([np.diff(run) for run in runs])
    steps = steps[np.abs(steps) > 0.0]
    ends = np.cumsum(np.abs(steps))
    at = (np.arange(PLACES) + 0.5) / PLACES * ends[-1]
    found = steps[np.searchsorted(ends, at)]
    ways: Complexes = found / np.abs(found)
    return ways


def rotations(reading: Reading) -> list[Reading]:
    """A ring begun at each of its corners, the first in the outline's order first; only itself where it is none."""
    if not reading.closed:
        return [reading]
    return [
        Reading(_begun(reading.one, i), _begun(reading.other, j), reading.rings)
        for i in range(len(reading.one))
        for j in range(len(reading.other))
    ]


def _begun(chain: Chain, at: int) -> Chain:
    return chain[at:] + chain[:at]
