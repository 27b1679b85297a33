"""The stitch line of a piece crosses itself."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Severity, plain_name
from notchwork.geometry import Meeting, row_bounds, self_intersections
from notchwork.sewing import Line, Nest

CROSSES = Rule(
    id="pieces/outline-crosses-itself",
    title="The outline of a piece crosses itself",
    rationale="An outline that crosses itself encloses no cloth that could be cut: it has a loop, or its edges stand in the "
    "wrong order, or a size was graded through another.",
    source="Follows from what an outline is; no outside source.",
    grade=Severity.ERROR,
)

ITSELF = "Its {edge} crosses itself."
OTHER = "Its {edge} crosses its {other}."
HINT = "Look at the nodes and handles there: a handle may be too long, or two nodes may be exchanged."


@check(CROSSES, needs="shapes")
def outline_crosses_itself(nest: Nest) -> Iterator[Finding]:
    for piece, rows in _crossings(nest).items():
        first = rows[0].values
        text = ITSELF if first["edge"] == first["other"] else OTHER
        assert rows[0].place is not None
        yield Finding(CROSSES, rows[0].place, text, HINT, first, tuple(rows), (piece,))


def _crossings(nest: Nest) -> dict[str, list[Row]]:
    """For each piece a row for every size in which its outline crosses itself."""
    lines, sizes, runs = [], [], []
    for graded in nest.pieces.values():
        if graded.has_shape:
            for size in range(len(nest.sizes)):
                for edge in graded.edges:
                    line = graded.lines[edge]
                    rows = line.rows[size] if line.rows is not None else slice(0, 0)
                    lines += [line] * (rows.stop - rows.start)
                    sizes += [size] * (rows.stop - rows.start)
                    runs.append(np.arange(rows.start, rows.stop))
    if not lines:
        return {}
    cubics = nest.cubics[np.concatenate(runs)]
    cubics = cubics + _apart(cubics, lines, sizes)[:, None]
    met = self_intersections(cubics)
    found: dict[str, dict[int, Row]] = {}
    for k in np.flatnonzero(met.kinds == Meeting.CROSS):
        a, b = int(met.a_rows[k]), int(met.b_rows[k])
        line, size = lines[a], sizes[a]
        point = complex(met.points[k]) - complex(cubics[a, 0] - nest.cubics[np.concatenate(runs)][a, 0])
        place = Place(piece=line.piece, line=line.name, point=point)
        values = {"edge": plain_name(line.name), "other": plain_name(lines[b].name)}
        found.setdefault(line.piece, {}).setdefault(size, Row(nest.sizes[size], values=values, place=place))
    return {piece: list(rows.values()) for piece, rows in found.items()}


def _apart(cubics: np.ndarray, lines: list[Line], sizes: list[int]) -> np.ndarray:
    """Shifts (n,) that lay all outlines side by side, so that only what belongs to one outline can meet."""
    low, high = row_bounds(cubics)
    keys = np.array([hash((line.piece, size)) for line, size in zip(lines, sizes, strict=True)])
    begins = np.flatnonzero(np.append(True, keys[1:] != keys[:-1]))
    left = np.minimum.reduceat(low.real, begins)
    width = np.maximum.reduceat(high.real, begins) - left + 10.0
    shift = np.concatenate([[0.0], np.cumsum(width)[:-1]]) - left
    return np.repeat(shift, np.diff(np.append(begins, len(cubics))))
