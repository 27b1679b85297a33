"""The stitch line inside a cut line of which every allowance is known."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry import area, inset, reverse
from notchwork.recognise.shape import Contour


def moved_in(cut: Contour, widths: Sequence[float]) -> Contour | None:
    """A cut line moved in by the width (mm) of each of its edges; None where that leaves no room.

    Edges stay those of the cut line: corners that an offset rounds or sharpens make no others.
    """
    edges = [cut.edge(k) for k in range(len(cut.corners))]
    if area(cut.cubics) >= 0.0:
        moved = inset(edges, widths)
    else:
        turned = inset([reverse(edge) for edge in reversed(edges)], list(reversed(widths)))
        moved = None if turned is None else [reverse(run) for run in reversed(turned)]
    if moved is None:
        return None
    sources = [np.full(len(run), cut.sources[first]) for run, first in zip(moved, cut.corners, strict=True)]
    starts = np.cumsum([0, *(len(run) for run in moved[:-1])])
    return Contour(np.concatenate(moved), tuple(starts.tolist()), np.concatenate(sources).astype(np.intp))
