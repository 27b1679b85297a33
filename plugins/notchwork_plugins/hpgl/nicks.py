"""Notches as a knife cuts them: nicks from the cut edge inward, that end well before the seam."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Group, Stroke
from notchwork.geometry import flatten

Complexes = NDArray[np.complex128]

DEEPEST = 4.0
"""mm: 1/8 to 1/4 in (3 to 6 mm) are cut; common practice, no source."""
SHARE = 0.5
"""No more of the allowance is cut through, so that the seam holds."""
LEAST = 0.5
"""mm: a shorter nick would not be seen."""
FAR = 100.0
"""mm: no cut line lies further off its seam."""
_CHORD = 0.01


def nicks(group: Group) -> Iterator[Complexes]:
    """A stroke of two points (mm) for every notch that has an allowance to be cut in; none where nothing is cut.

    Its first point lies on the cut line of its size, straight out from where the notch stands on the seam.
    """
    for notch in group.strokes:
        depth = notch.facts.get("depth")
        if notch.meaning == "notch" and isinstance(depth, float | int) and len(notch.cubics):
            inner, outer = complex(notch.cubics[0, 0]), complex(notch.cubics[-1, 3])
            outward = (outer - inner) / abs(outer - inner)
            seam = outer - depth * outward
            room = min((_far(seam, outward, cut) for cut in _cuts(group, notch)), default=FAR)
            long = min(DEEPEST, SHARE * room)
            if room < FAR and long >= LEAST:
                yield np.array([seam + room * outward, seam + (room - long) * outward])


def _cuts(group: Group, notch: Stroke) -> Iterator[Complexes]:
    """The cut lines of the notch's size."""
    for stroke in group.strokes:
        outline = stroke.meaning == "cut" and stroke.facts.get("kind") != "cutout" and len(stroke.cubics)
        if outline and stroke.facts.get("size") == notch.facts.get("size"):
            line = flatten(stroke.cubics, _CHORD).points
            yield np.append(line, line[0]) if stroke.closed else line


def _far(at: complex, along: complex, line: Complexes) -> float:
    """How far (mm) from a point the polyline is first met in a direction, at most FAR."""
    z = (line - at) * np.conj(along)
    low, high = z[:-1], z[1:]
    with np.errstate(divide="ignore", invalid="ignore"):
        met = low.real - low.imag * (high.real - low.real) / (high.imag - low.imag)
    ahead = met[(low.imag * high.imag <= 0) & (low.imag != high.imag) & (met >= 0)]
    return float(ahead.min(initial=FAR))
