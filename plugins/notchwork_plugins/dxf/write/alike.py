"""The same line in every size, as vertices that all sizes share, or told that it is not the same."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork_plugins.dxf.write.chords import Vertices, shared
from notchwork_plugins.dxf.write.graded import Sized
from notchwork_plugins.dxf.write.runs import TOUCH, Part, Run, put_together


class Unlike(Exception):
    """Something of a piece is not drawn alike in all its sizes; the message says what, in words that follow “because”."""


def rings_alike(found: Sequence[Sequence[Run]], chord: float, what: str) -> list[Vertices]:
    """Closed lines, given for every size. Raises Unlike."""
    if len({len(runs) for runs in found}) > 1:
        raise Unlike(f"{what} has more parts in some sizes than in others")
    return [_shared(runs, chord, what) for runs in zip(*found, strict=True)]


def lines_alike(
    sized: Sized, drawn: Mapping[int, Sequence[Part]], closed: bool, chord: float, what: str
) -> list[Vertices]:
    """Parts by size put end to end; their vertices are NaN in sizes without them. Raises Unlike."""
    found = [put_together(parts, closed) for parts in drawn.values()]
    if len({len(runs) for runs in found}) > 1:
        raise Unlike(f"{what} hangs together in some sizes only")
    lines = []
    for runs in zip(*found, strict=True):
        round_ = closed or max(abs(run.cubics[0, 0] - run.cubics[-1, 3]) for run in runs) <= TOUCH
        vertices = _shared([run._replace(closed=round_) for run in runs], chord, what)
        z = sized.nowhere(vertices.z.shape[1])
        z[list(drawn)] = vertices.z
        lines.append(vertices._replace(z=z))
    return lines


def _shared(runs: Sequence[Run], chord: float, what: str) -> Vertices:
    found = shared(runs, chord)
    if found is None:
        raise Unlike(f"{what} has more corners in some sizes than in others")
    return found
