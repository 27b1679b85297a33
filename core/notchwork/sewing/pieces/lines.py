"""One line of a piece in all sizes: an edge, an inner line or a cut-out, with what lies along it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Generic, Literal, TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
T = TypeVar("T")

SAME_SPOT = 0.05
"""mm: two places on a line that lie nearer than this are one place."""


def agree(a: Floats, b: Floats | float, within: float = SAME_SPOT) -> bool:
    """Whether two positions (mm, sizes) lie nearer than ``within`` in every size in which both exist."""
    return not bool((np.abs(a - b) >= within).any())


class Agreeing(Generic[T]):
    """Things entered with their positions (mm, sizes), to be asked which of them ``agree`` with another position.

    Only those near it in the first size are compared.
    """

    def __init__(self, within: float = SAME_SPOT) -> None:
        self._within = within
        self._near: dict[int, list[tuple[Floats, T]]] = {}
        self._anywhere: list[tuple[Floats, T]] = []

    def add(self, at: Floats, thing: T) -> None:
        here = self._place(at)
        (self._anywhere if here is None else self._near.setdefault(here, [])).append((at, thing))

    def at(self, at: Floats) -> Iterator[T]:
        """What was entered at positions that agree with this one."""
        here = self._place(at)
        near = (
            self._near.values()
            if here is None
            else (self._near.get(k, ()) for k in range(here - 1, here + 2))
        )
        for known in (*near, self._anywhere):
            yield from (thing for other, thing in known if agree(at, other, self._within))

    def any_at(self, at: Floats) -> bool:
        return next((True for _ in self.at(at)), False)

    def _place(self, at: Floats) -> int | None:
        first = float(at[0])
        return math.floor(first / self._within) if math.isfinite(first) else None


@dataclass(frozen=True, slots=True, eq=False)
class Intake:
    """Cloth taken out of an edge between two arc positions (sizes,): a dart's mouth or a pleat's folds."""

    kind: Literal["dart", "pleat"]
    name: str
    low: Floats
    high: Floats

    @property
    def width(self) -> Floats:
        return self.high - self.low


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """An edge, inner line or cut-out of one piece, in every size.

    ``rows`` are its cubics in the nest's array, one slice a size; None where only a tape-measured ``length`` (sizes,) in
    mm is known. ``nodes`` holds the arc position (sizes,) of every named node on it. ``before`` and ``after`` are the
    neighbouring edges in the outline's order ("" for lines that are no edges).
    """

    piece: str
    name: str
    kind: Literal["edge", "inner", "cutout"]
    closed: bool
    rows: tuple[slice, ...] | None
    length: Floats
    nodes: Mapping[str, Floats]
    before: str = ""
    after: str = ""
    intakes: list[Intake] = field(default_factory=list)

    @property
    def key(self) -> tuple[str, str]:
        return (self.piece, self.name)

    @property
    def by_tape(self) -> bool:
        """Whether nothing but a measured length is known."""
        return self.rows is None

    def sewn(self, position: Floats) -> Floats:
        """The sewn length (mm, sizes) from the line's start to an arc position: darts and pleats are taken out."""
        sewn = position
        for intake in self.intakes:
            sewn = sewn - np.clip(position - intake.low, 0.0, intake.width)
        return sewn

    @property
    def sewn_length(self) -> Floats:
        """The sewn length (mm) of the whole line in every size."""
        return self.sewn(self.length)

    def corner_at(self, position: Floats) -> str | None:
        """The name of the corner at an arc position: the edge that begins there; None inside the line."""
        if self.kind != "edge" or self.closed:
            return None
        if agree(position, 0.0):
            return self.name
        if agree(position, self.length):
            return self.after
        return None
