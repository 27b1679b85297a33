"""Strokes put end to end: an outline as one line with its corners."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import lines, reverse, tangents

Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]

TOUCH = 0.05
"""mm: ends this near are one; a cut line may end so far beside its fold."""


class Part(NamedTuple):
    """A stretch of a line: what it is called, "" for nothing, and its cubics (k, 4) in mm."""

    name: str
    cubics: Complexes


class Run(NamedTuple):
    """A line: its cubics (k, 4); which of them begin at a corner, whatever the angle; and the name of each."""

    cubics: Complexes
    corner: Bools
    names: tuple[str, ...]
    closed: bool

    @property
    def turns(self) -> NDArray[np.float64]:
        """By how many degrees the line turns where each cubic begins; 0 at the start of an open one."""
        c, rows = self.cubics, np.arange(len(self.cubics))
        leaving, arriving = tangents(c, rows, np.zeros(len(c))), tangents(c, rows, np.ones(len(c)))
        turned = np.degrees(np.abs(np.angle(leaving * np.roll(arriving, 1).conj())))
        if not self.closed and len(turned):
            turned[0] = 0.0
        return np.asarray(turned)


def put_together(
    parts: Sequence[Part], closed: bool, joints: Sequence[Sequence[Complexes]] = ()
) -> list[Run]:
    """Parts as lines, each part after the one at whose end it begins, turned round where its other end lies there.

    Of closed lines a gap between parts is bridged straight, but for the corners of ``joints``: each a chain of cubics along
    which there may be gaps. The longest line comes first.
    """
    left = [part for part in parts if len(part.cubics)]
    runs: list[Run] = []
    while left:
        chain = [left.pop(0)]
        while left:
            end = chain[-1].cubics[-1, 3]
            if abs(chain[0].cubics[0, 0] - end) <= TOUCH:
                break
            gaps = np.array([[abs(part.cubics[k, k] - end) for k in (0, -1)] for part in left])
            which, from_end = divmod(int(gaps.argmin()), 2)
            if not closed and gaps.min() > TOUCH:
                break
            part = left.pop(which)
            chain.append(Part(part.name, reverse(part.cubics)) if from_end else part)
        runs.append(_run(chain, closed, joints))
    return sorted(runs, key=lambda run: -float(np.abs(np.diff(run.cubics, axis=1)).sum()))


def _run(chain: Sequence[Part], closed: bool, joints: Sequence[Sequence[Complexes]]) -> Run:
    whole: list[Part] = []
    corner: list[Bools] = []
    begins = len(chain) == 1 and chain[0].name != ""
    for k, part in enumerate(chain):
        whole.append(part)
        corner.append(np.arange(len(part.cubics)) == (0 if begins else -1))
        after = chain[(k + 1) % len(chain)]
        a, b = complex(part.cubics[-1, 3]), complex(after.cubics[0, 0])
        gap = abs(b - a) > TOUCH and (closed or k + 1 < len(chain))
        # The same edge on both sides of a fold that is opened runs on.
        begins = gap or after.name != part.name
        if gap:
            bridge = lines(np.array([a, *_corners(a, b, joints), b]))
            whole.append(Part("", bridge))
            corner.append(np.ones(len(bridge), dtype=bool))
    corner[0][0] |= begins and closed
    return Run(
        np.concatenate([part.cubics for part in whole]),
        np.concatenate(corner),
        tuple(part.name for part in whole for _ in range(len(part.cubics))),
        closed,
    )


def _corners(a: complex, b: complex, joints: Sequence[Sequence[Complexes]]) -> list[complex]:
    """The corners that a gap goes round: those between lines that follow each other, the first through a, the last through b."""
    for chain in joints:
        ends = [complex(line[-1, 3]) for line in chain[:-1]]
        if _on(chain[0], a) and _on(chain[-1], b):
            return ends
        if _on(chain[-1], a) and _on(chain[0], b):
            return ends[::-1]
    return []


def _on(line: Complexes, z: complex) -> bool:
    """Whether a point lies on the straight line through the ends of a run."""
    a, along = complex(line[0, 0]), complex(line[-1, 3] - line[0, 0])
    return abs(along) > TOUCH and abs(((z - a) * along.conjugate()).imag) / abs(along) <= TOUCH
