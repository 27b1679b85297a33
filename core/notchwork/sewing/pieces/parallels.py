"""Inner lines that are stated as running beside an edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from notchwork.geometry import area, parallel
from notchwork.model import Piece, in_size
from notchwork.sewing.pieces.graded import Run


def parallels(piece: Piece, runs: Sequence[Run], sizes: Sequence[str | None]) -> Iterable[Run]:
    """Inner lines at a distance inside an edge."""
    edges = [run for run in runs if run.kind == "edge" and run.cubics is not None]
    by_name = {run.name: run for run in edges}
    for name, inner in piece.inner.items():
        if inner is None or inner.parallel_to not in by_name or inner.distance is None:
            continue
        edge = by_name[inner.parallel_to]
        assert edge.cubics is not None
        lines = []
        for k, size in enumerate(sizes):
            around = np.concatenate([run.cubics[k] for run in edges if run.cubics is not None])
            inward = 1.0 if len(around) and area(around) >= 0 else -1.0
            part = edge.cubics[k]
            lines.append(parallel(part, inward * in_size(inner.distance, size)) if len(part) else part)
        yield Run(name, "inner", edge.closed, tuple(lines), None, ({},) * len(sizes))
