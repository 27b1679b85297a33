"""One flat piece as its maker wrote it down: outline, edges, marks, darts, pleats, inner lines and cut orders."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from notchwork.model.values import GradedPoint, Length, Place, Point, SizedLength, SizedNumber, Stated
from notchwork.values import frozen

CutCorner = Literal["mitred", "squared", "turned_up"]


@frozen
class Node(Stated):
    """A node of an outline or line. ``into`` and ``out`` are its absolute Bézier handles; None means the node itself.

    A node with ``edge`` begins that edge, which runs to the next such node.
    """

    at: Point
    into: Point | None = field(default=None, metadata={"key": "in"})
    out: Point | None = None
    edge: str | None = None
    name: str | None = None
    grade: str | None = None
    corner: Literal["point"] | None = None
    cut_corner: CutCorner | None = None


@frozen
class Finish(Stated):
    """What becomes of an edge that no seam takes. ``depth`` is the finished depth in mm."""

    kind: Literal["hem", "bound", "faced", "casing", "overcast", "rolled", "raw", "caught"]
    depth: SizedLength | None = None
    turns: int | None = None
    with_: str | None = field(default=None, metadata={"key": "with"})
    width: SizedLength | None = None
    eased: bool = False
    caught_in: str | None = None


@frozen
class Edge(Stated):
    """Properties of one named edge; on a piece without an outline it also is the edge, with its measured ``length``."""

    length: SizedLength | None = None
    allowance: SizedLength | None = None
    trim_to: SizedLength | None = None
    trim_when: Literal["fitting", "hung"] | None = None
    fold: bool = False
    finish: Finish | None = None
    cut_corner: CutCorner | None = None


@frozen
class Notch(Stated):
    """A mark on an edge. A double or triple one stands at the middle of its nicks, ``spacing`` mm apart."""

    edge: str
    at: Place
    kind: Literal["single", "double", "triple"] = "single"
    spacing: Length | None = None
    use: Literal["place"] | None = None


@frozen
class Leg(Stated):
    """The handles of a curved dart leg: ``out`` leaves the foot, ``into`` arrives at the apex."""

    out: Point | None = None
    into: Point | None = field(default=None, metadata={"key": "in"})


@frozen
class Dart(Stated):
    """A wedge sewn shut: two ``feet`` on ``edge`` and an ``apex``; or two ``apexes`` inside the piece.

    The grade rule moves the apex. A double-pointed dart is ``width`` mm wide at ``at`` (mm from the first apex, or a
    percentage such as "50%", which is the default).
    """

    edge: str | None = None
    feet: tuple[Place, Place] | None = None
    apex: Point | None = None
    apexes: tuple[GradedPoint, GradedPoint] | None = None
    width: SizedLength | None = None
    at: Length | str | None = None
    grade: str | None = None
    legs: tuple[Leg, Leg] | None = None
    press: str | None = None
    slashed: bool = False
    eased: bool = False
    open_from: SizedLength | None = None


@frozen
class Pleat(Stated):
    """Cloth folded away across an edge, from the first fold to the second, laid ``to`` the edge named."""

    edge: str
    folds: tuple[Place, Place]
    to: str | None = None


@frozen
class InnerLine(Stated):
    """A line drawn and not cut: nodes of its own, or a parallel ``distance`` mm inside an edge."""

    line: tuple[Node, ...] | None = None
    parallel_to: str | None = None
    distance: SizedLength | None = None
    width: SizedLength | None = None
    use: Literal["casing", "fold", "placement", "topstitch", "slash"] | None = None
    closed: bool = False


@frozen
class CutOut(Stated):
    """A closed line inside the piece that is cut out."""

    line: tuple[Node, ...]


@frozen
class Mark(Stated):
    """A point on the piece: a drill hole, a button, a dart point."""

    at: Point
    grade: str | None = None
    kind: str | None = None


@frozen
class Strip(Stated):
    """A rectangle ``length`` by ``width`` mm with the edges lower, end, upper, start, counter-clockwise from the lower left.

    ``joins`` is the length that joining it from shorter strips takes up.
    """

    width: SizedLength
    length: SizedLength
    grain: Literal["lengthwise", "cross", "bias", "any"] | None = None
    joins: SizedLength | None = None


@frozen
class Cut(Stated):
    """How many units of a piece are cut: from one ``material``, or in each of several ``plies`` that are then basted together.

    ``mirrored``: the count holds both hands, half of each. ``hand="mirrored"``: copies of the other hand only.
    """

    material: str | None = None
    plies: tuple[str, ...] | None = None
    count: SizedNumber = 1
    mirrored: bool = False
    hand: Literal["mirrored"] | None = None

    @property
    def materials(self) -> tuple[str, ...]:
        return self.plies if self.plies is not None else ((self.material,) if self.material else ())


@frozen
class Piece(Stated):
    """A piece as written. With ``like``, what it does not state is the other piece's; a None in a mapping removes a namesake.

    Exactly one of outline, outlines (by size), strip, or edges with lengths gives the shape (after ``like``). The outline is the
    stitch line unless ``outline_is`` says that it is a cut line, or that nobody knows: then nothing measured on it is judged.
    """

    name: str | None = None
    like: str | None = None
    use: Literal["template", "guide"] | None = None
    allowance: SizedLength | None = None
    grain: Literal["lengthwise", "cross", "bias", "any"] | None = None
    bias_to: str | None = None
    outline: tuple[Node, ...] | None = None
    outlines: Mapping[str, tuple[Node, ...]] | None = None
    outline_is: Literal["cut_line", "unknown"] | None = None
    strip: Strip | None = None
    edges: Mapping[str, Edge | None] = field(default_factory=dict)
    notches: Mapping[str, Notch | None] = field(default_factory=dict)
    darts: Mapping[str, Dart | None] = field(default_factory=dict)
    pleats: Mapping[str, Pleat | None] = field(default_factory=dict)
    inner: Mapping[str, InnerLine | None] = field(default_factory=dict)
    marks: Mapping[str, Mark | None] = field(default_factory=dict)
    cutouts: Mapping[str, CutOut | None] = field(default_factory=dict)
    grainline: tuple[GradedPoint, GradedPoint] | None = None
    cut: tuple[Cut, ...] | None = None
    note: str | None = None
    removed: frozenset[str] = field(default=frozenset(), metadata={"key": None})
    """Keys that a ``like`` piece states as null: the other piece's value is not taken over."""
