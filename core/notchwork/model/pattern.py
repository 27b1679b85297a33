"""The whole pattern as written: pieces, seams, openings, notions, sizes, materials and the judgements kept with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from notchwork.model.piece import Piece
from notchwork.model.seam import Opening, Seam, Steps
from notchwork.model.values import Length, LengthRange, Point, SizedLength, SizedNumber, Stated, Unit
from notchwork.values import frozen


@frozen
class Sizes(Stated):
    """The sizes by name, the one that is drafted, and whether they are one ordered run."""

    names: tuple[str, ...]
    base: str
    ordered: bool = True


@frozen
class Material(Stated):
    """A cloth or other stuff. Lengths in mm; stretch and shrinkage in percent."""

    name: str | None = None
    kind: Literal["cloth", "interfacing", "net", "leather", "felt", "knit"] = "cloth"
    width: Length | None = None
    one_way: bool = False
    two_faced: bool | None = None
    sheer: bool = False
    stretch: float | None = None
    shrinkage: float | None = None
    thickness: Length | None = None
    note: str | None = None


@frozen
class Notion(Stated):
    """Something bought by length or count, tied to the opening, edge or inner line it serves (``in``)."""

    kind: Literal["zip", "elastic", "cord", "button", "tape", "thread"]
    name: str | None = None
    type: Literal["invisible", "dress", "separating"] | None = None
    serves: str | None = field(default=None, metadata={"key": "in"})
    width: SizedLength | None = None
    length: SizedLength | None = None
    count: SizedNumber | None = None
    note: str | None = None


@frozen
class Acceptance(Stated):
    """A finding accepted on purpose, with its reason."""

    check: str
    reason: str
    seam: str | None = None
    piece: str | None = None
    size: str | None = None


@frozen
class Girth(Stated):
    """A finished measure round the body: a seam's side, so many times, against a body measure with its ease in mm."""

    seam: str
    side: int = 1
    times: int = 1
    body: str | None = None
    ease: LengthRange | None = None


@frozen
class Step(Stated):
    """One step of the order of sewing: one verb over the pattern's own names."""

    baste: tuple[str, ...] | None = None
    dart: tuple[str, ...] | None = None
    sew: tuple[str, ...] | None = None
    gather: tuple[str, ...] | None = None
    finish: tuple[str, ...] | None = None
    insert: tuple[str, ...] | None = None
    fit: tuple[str, ...] | None = None
    turn: tuple[str, ...] | None = None
    hang: tuple[str, ...] | None = None
    note: str | None = None


@frozen
class Pattern(Stated):
    """One pattern. Mappings keep the order in which their maker wrote them.

    ``schema`` is where an editor finds the format's schema; it means nothing here.
    """

    version: str = field(default="1.0", metadata={"key": "notchwork", "required": True})
    schema: str | None = field(default=None, metadata={"key": "$schema"})
    title: str | None = None
    author: str | None = None
    license: str | None = None
    description: str | None = None
    language: str | None = None
    identifier: str | None = None
    created: str | None = None
    modified: str | None = None
    unit: Unit = "mm"
    sizes: Sizes | None = None
    grade_rules: Mapping[str, Mapping[str, Point]] = field(default_factory=dict)
    materials: Mapping[str, Material] = field(default_factory=dict)
    pieces: Mapping[str, Piece] = field(default_factory=dict)
    seams: Mapping[str, Seam] = field(default_factory=dict)
    openings: Mapping[str, Opening] = field(default_factory=dict)
    notions: Mapping[str, Notion] = field(default_factory=dict)
    body: Mapping[str, SizedLength] = field(default_factory=dict)
    girths: Mapping[str, Girth] = field(default_factory=dict)
    order: tuple[Step, ...] = ()
    tolerances: Mapping[str, Steps] = field(default_factory=dict)
    accepted: tuple[Acceptance, ...] = ()
