"""A knife that trails behind its holder cuts on a little past the start, so that the piece comes free."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from notchwork_plugins.hpgl.ink import Ink


def overcut(inks: Iterable[Ink], far: float) -> Iterator[Ink]:
    """The inks, closed cuts going on for ``far`` mm over their beginning."""
    for ink in inks:
        yield _longer(ink, far) if ink.closed and ink.tool == "cut" else ink


def _longer(ink: Ink, far: float) -> Ink:
    line = ink.lines[0]
    arc = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line)))])
    far = min(far, float(arc[-1]))
    again = line[1:][arc[1:] < far]
    end = complex(np.interp(far, arc, line.real), np.interp(far, arc, line.imag))
    return replace(ink, lines=(np.concatenate([line, again, [end]]),), closed=False)
