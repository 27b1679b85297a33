"""What is said of a corner: which piece, which way, how much, where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from notchwork.checks import Names
from notchwork.findings import Angle, Length, Measure, PersonUnit, Severity, listed, plain_name, safe, worded
from notchwork.pictures.corner.found import SOUND, Corner, speaks
from notchwork.pictures.corner.laid import Laid
from notchwork.pictures.glance.frame import upright
from notchwork.pictures.lettering import short
from notchwork.pictures.signs import verdict_word
from notchwork.sewing import Nest
from notchwork.sewing.names import capital
from notchwork.sewing.shapes.truing import SMOOTH, SQUARE

Lies = Literal["down", "up", "out"]
"""Where an edge lies on the garment, as the first piece's thread stands upright: below the cloth, above, or at a side of it."""

LETTERS = 60
"""Longer names are cut off."""


class Words:
    """The words of one corner."""

    def __init__(
        self, nest: Nest, names: Names, corner: Corner, laid: Laid, also: Sequence[Corner] = ()
    ) -> None:
        self._nest = nest
        self._names = names
        self._corner = corner
        self._laid = laid
        self._also = tuple(dict.fromkeys(self._where(other) for other in also))
        self.lies = _lies(nest, corner)

    @property
    def unit(self) -> PersonUnit:
        """The unit that the person thinks in."""
        return self._names.unit

    @property
    def is_sewn(self) -> bool:
        """Whether the edges meet at a seam, not at a fold."""
        return self._corner.end != "fold"

    @property
    def pieces(self) -> tuple[str, str]:
        """What to call both pieces, so that they can be told apart."""
        spots = self._corner.spots
        one, other = (_named(self._names.piece(spot.piece)) for spot in spots)
        if self._corner.own_image:
            return one, "its mirror half" if self._corner.end == "fold" else "its mirror image"
        if one != other:
            return one, other
        beside = [_named(plain_name(self._beside(k))) for k in (0, 1)]
        return (f"{one}, {beside[0]}", f"{other}, {beside[1]}") if beside[0] != beside[1] else (one, other)

    @property
    def edges(self) -> tuple[str, ...]:
        """The names of the edges that run on; one, where both are called alike."""
        return tuple(dict.fromkeys(_named(plain_name(line)) for _, line in self._corner.edges))

    @property
    def seam(self) -> str:
        """The seam that ends here, or the fold."""
        if self._corner.seam is None:
            return _named(plain_name(self._beside(0)))
        return _named(self._names.seam(self._corner.seam))

    @property
    def fold(self) -> str:
        """What stands beside a fold."""
        return "fold" if "fold" in self.seam.split() else f"fold: {self.seam}"

    @property
    def title(self) -> str:
        """ "Neck at Shoulder seam"."""
        return f"{capital(listed(self.edges))} at {self._where(self._corner)}"

    @property
    def size(self) -> str:
        """The size shown, nothing where there is one only."""
        size = self._corner.sizes[self._corner.size]
        return f"size {safe(size)}" if size is not None else ""

    def figures(self) -> Iterator[tuple[str, bool]]:
        """How much, with its direction: "2.0 mm lower", "5.0° down"; and whether that is too much."""
        corner = self._corner
        if corner.stepped:
            yield f"{self._measure(Length(abs(corner.stepped)))} {self._step_word()}", True
        if corner.bent is not None:
            yield f"{self._measure(Angle(abs(self._off)))} {self._bend_word()}", self._bend_speaks

    def sentences(self, leaves: float) -> Iterator[str]:
        """What is wrong, or that nothing is. ``leaves``: how far (mm) the edge is off where the picture ends."""
        corner = self._corner
        one, other = self.pieces
        if corner.stepped:
            by = self._measure(Length(abs(corner.stepped)))
            yield f"{capital(other)} ends {by} {self._step_word()} than {one}."
        if corner.bent is not None:
            yield self._bend(leaves)
        elif not corner.stepped:
            yield self._sound()
        if corner.bend is not None and corner.bend.accepted is not None:
            yield f"Accepted on purpose: {_named(corner.bend.accepted)}"
        elif corner.bent is not None and not self._bend_speaks:
            yield "That is let pass." if abs(self._off) <= SMOOTH else "It is taken as meant."
        yield from self._other_sizes()
        if self._also:
            yield f"The same at {listed(self._also)}."

    def says(self, leaves: float) -> str:
        """The text alternative."""
        one, other = self.pieces
        size = f", {self.size}" if self.size else ""
        fold = self._corner.end == "fold"
        a, b = (self._measure(Angle(angle)) for angle in self._laid.angles)
        joined = f"at the {self.fold}" if fold else f"joined by {self.seam}, its {self._corner.end}"
        leave = f"Either leaves the fold at {a}." if fold else f"They leave the seam at {a} and {b}."
        return " ".join(
            (
                f"{self.title}{size}: {verdict_word(self._corner.severity)}.",
                *self.sentences(leaves),
                f"{capital(one)} on the left, {other} on the right, {joined}. {leave}",
            )
        )

    def edge_says(self, number: int) -> str:
        """One edge, pointed at."""
        piece, line = self.pieces[number], _named(plain_name(self._corner.edges[number][1]))
        angle = self._measure(Angle(self._laid.angles[number]))
        where = "the fold" if self._corner.end == "fold" else self.seam
        return f"{capital(piece)}, {line}: leaves {where} at {angle}"

    def _where(self, corner: Corner) -> str:
        if corner.seam is not None:
            return _named(self._names.seam(corner.seam))
        return f"the fold of {_named(self._names.piece(corner.spots[0].piece))}"

    def _other_sizes(self) -> Iterator[str]:
        """The sizes that are wrong too, and those that are right, by the finding that is told first."""
        here = self._corner.sizes[self._corner.size]
        for graded in self._corner.told[:1]:
            least = min(Severity.WARNING, graded.severity)
            wrong = {row.row.size for row in graded.rows if row.severity >= least}
            others = [safe(size) for size in self._corner.sizes if size in wrong and size not in (here, None)]
            right = [safe(size) for size in self._corner.sizes if size is not None and size not in wrong]
            if others:
                yield f"Also in {listed(others)}."
            if right:
                yield f"In {listed(right)} it runs on."

    @property
    def _bend_speaks(self) -> bool:
        return speaks(self._corner.bend, self._corner.sizes[self._corner.size])

    @property
    def _off(self) -> float:
        return float(self._corner.off[self._corner.size])

    def _bend(self, leaves: float) -> str:
        other, angle = self.pieces[1], self._measure(Angle(abs(self._off)))
        far = f"{self._measure(Length(leaves))} where the picture ends"
        edge = listed(self.edges)
        if self._corner.end == "fold":
            told = self._measure(Angle(self._laid.angles[0]))
            square = self._measure(Angle(SQUARE))
            shape = "a dent" if self._off > 0 else "a point"
            return f"The {edge} leaves the fold at {told} instead of {square}: opened out, {shape} in the middle, {far}."
        verb = {"down": "dips", "up": "rises", "out": "stands out", "in": "draws in"}[self._bend_word()]
        return f"The {edge} bends by {angle} at the seam: {other} {verb}, {far}."

    def _sound(self) -> str:
        everywhere = ", in every size" if len(self._corner.sizes) > 1 else ""
        if abs(self._off) > SOUND:
            return f"A corner of {self._measure(Angle(abs(self._off)))} is taken as meant here."
        return f"Runs on in one line{everywhere}."

    def _bend_word(self) -> str:
        away = {"down": "down", "up": "up", "out": "out"}
        back = {"down": "up", "up": "down", "out": "in"}
        return (away if self._off > 0 else back)[self.lies]

    def _step_word(self) -> str:
        away = {"down": "lower", "up": "higher", "out": "further out"}
        back = {"down": "higher", "up": "lower", "out": "further in"}
        return (away if self._corner.stepped > 0 else back)[self.lies]

    def _beside(self, number: int) -> str:
        """The edge that is sewn, or folded, at this corner."""
        spot, (_, line) = self._corner.spots[number], self._corner.edges[number]
        return self._nest.line(spot.piece, spot.line).before if spot.line == line else spot.line

    def _measure(self, measure: Measure) -> str:
        return worded("{m}", {"m": measure}, self._names.unit)


def _lies(nest: Nest, corner: Corner) -> Lies:
    """By the direction off the cloth at the first edge's corner, with the piece's thread upright."""
    piece, name = corner.edges[0]
    graded, spot = nest.pieces[piece], corner.spots[0]
    line = graded.lines[name]
    arcs = _near(spot.line == name, float(line.length[corner.size]))
    a, b = nest.points(line, np.array(arcs), corner.size).tolist()
    outward = -1j * graded.sense * (b - a) * upright(nest, graded)
    if abs(outward.imag) < abs(outward.real):
        return "out"
    return "down" if outward.imag < 0 else "up"


def _near(leaves: bool, long: float) -> tuple[float, float]:
    """Arc positions (mm) of the edge's first stretch from the corner, in its own order."""
    far = min(long, 20.0)
    return (0.0, far) if leaves else (long - far, long)


def _named(name: str) -> str:
    return short(safe(name), LETTERS)
