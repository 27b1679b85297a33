"""Better orders, sought step by step: the first layout found is good, its neighbours often better."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from random import Random
from typing import TypeVar

import numpy as np

from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.raster import Raster

Score = tuple[float, ...]
Found = TypeVar("Found")
Tried = Callable[[Sequence[int], Score | None], tuple[Score, Found] | None]
"""What an order gives and how good that is, the less the better; None where it is worse than a score."""


def orders(pieces: Sequence[Piece]) -> Iterator[list[int]]:
    """Good orders to begin with: the largest first, the longest, the widest; the pieces' own order among equals."""
    kinds = [piece.kind for piece in pieces]
    for sizes in (
        [kind.area for kind in kinds],
        [max(kind.wide, kind.tall) for kind in kinds],
        [min(kind.wide, kind.tall) for kind in kinds],
    ):
        large = np.round(sizes, 3)
        yield np.argsort(-large, kind="stable").tolist()


def sought(
    starts: Iterable[Sequence[int]],
    tried: Tried[Found],
    alike: Callable[[int], Hashable],
    raster: Raster,
    budget: int,
    enough: Score = (),
) -> Found:
    """The best found among orders and their neighbours: two exchanged, or one put elsewhere.

    ``alike`` tells which are of one kind. It ends when the raster has done ``budget`` more work, whatever the machine, or where
    a score is at most ``enough``.
    """
    order: list[int] = []
    best: tuple[Score, Found] | None = None
    until = raster.work + budget
    for start in starts:
        if best is None or (raster.work < until and best[0] > enough):
            now = tried(start, best and best[0])
            if now is not None and (best is None or now[0] < best[0]):
                order, best = list(start), now
    assert best is not None
    chance, idle = Random(1), 0
    while raster.work < until and best[0] > enough and len(order) > 1 and idle < 50 * len(order):
        one, two = chance.sample(range(len(order)), 2)
        idle += 1
        raster.work += 1
        if alike(order[one]) == alike(order[two]):
            continue
        other = list(order)
        if chance.random() < 0.5:
            other[one], other[two] = other[two], other[one]
        else:
            other.insert(two, other.pop(one))
        now = tried(other, best[0])
        if now is not None and now[0] <= best[0]:
            idle = idle if now[0] == best[0] else 0
            order, best = other, now
    return best[1]
