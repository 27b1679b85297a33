"""One seam as its maker stated it: sides of spans, how each further side joins, and what meets what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from notchwork.model.values import Length, LengthRange, NumberRange, Place, Stated
from notchwork.values import frozen

Half = Literal["left", "right", "none"]
Construction = Literal["plain", "french", "felled", "bound", "lapped", "bagged", "basted", "applied"]


@frozen
class Span(Stated):
    """A whole edge, a part of an edge or an inner line, in the direction in which the seam is walked.

    ``target`` is "piece.line". Without ``start`` the whole line is walked in its own order; ``start`` and ``stop`` are
    places on it. ``mirrored`` is the other copy (or the other half, on a fold) than the unmarked spans of that piece mean.
    """

    target: str = field(metadata={"key": "edge", "bare": True})
    start: Place | None = field(default=None, metadata={"key": "from"})
    stop: Place | None = field(default=None, metadata={"key": "to"})
    way: Literal["forward", "back"] | None = None
    mirrored: bool = False
    times: int = 1

    @property
    def piece(self) -> str:
        return self.target.partition(".")[0]

    @property
    def line(self) -> str:
        return self.target.partition(".")[2]


@frozen
class Join(Stated):
    """How a further side relates to side 1. A single amount or percent means ± the seam's tolerance, a single ratio ± 10 %."""

    kind: Literal["plain", "eased", "gathered", "pleated", "stretched"]
    amount: LengthRange | None = None
    percent: NumberRange | None = None
    ratio: NumberRange | None = None
    between: tuple[str, str] | None = None


@frozen
class Side(Stated):
    """One side of a seam: its spans in walking order. ``layers`` copies lie on each other."""

    spans: tuple[Span, ...] = field(metadata={"bare": True})
    join: Join | None = None
    layers: int = 1


Steps = tuple[float, float, float]
"""Where a difference becomes info, warning and error."""


@frozen
class Seam(Stated):
    """Two or more sides sewn together; side 1 is the finished length and has no join.

    ``meet`` rows have one entry per side: a seam's name (its end on that side), "piece.place", or None.
    ``tolerance`` is what is fine on this seam in mm; ``tolerances`` gives three steps for a check by its id.
    """

    sides: tuple[Side, ...]
    name: str | None = None
    closed: bool = False
    times: int = 1
    half: Half | None = None
    construction: Construction | None = None
    over: tuple[str, ...] | None = field(default=None, metadata={"single": True})
    role: str | None = None
    meet: tuple[tuple[str | None, ...], ...] = ()
    tolerance: Length | None = None
    tolerances: Mapping[str, Steps] = field(default_factory=dict)
    note: str | None = None


@frozen
class Opening(Stated):
    """A stretch that can be opened. The spans of one section lie on each other; the sections follow each other.

    ``lips`` states two unlike lips instead. A gap is ``closed_by`` a seam or stays ``open_until`` one is sewn.
    """

    kind: Literal["zip", "buttons", "lacing", "lap", "gap"]
    name: str | None = None
    sections: tuple[tuple[Span, ...], ...] | None = None
    lips: tuple[tuple[Span, ...], tuple[Span, ...]] | None = None
    half: Half | None = None
    closed_by: str | None = None
    open_until: str | None = None
    note: str | None = None
