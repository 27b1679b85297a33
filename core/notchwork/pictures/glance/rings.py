"""Letters of seams in rings, each beside the middle of what its seam takes of an edge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Complexes, along
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.room import Room
from notchwork.pictures.lettering import width
from notchwork.sewing import GradedPiece, Nest, Stretch

RADIUS = 8.2
"""px: half the height of a ring."""
TYPE = 11.0
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
"""Where along its stretch a letter may stand, the best first."""
DEPTHS = (2.5, 5.0, 9.0, 14.0, 20.0)
"""px from the edge to the ring."""
BESIDE = (7.0, 10.0, 14.0, 20.0, 28.0, 38.0, 50.0, 65.0, 85.0)
"""px off the edge, where there is no room on the cloth."""
GAP = 1.5
"""px to everything else."""


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """What one seam takes of one line of a piece: the places (px) where its letter may stand by, and the ways off the cloth."""

    seam: str
    line: str
    at: Complexes
    outward: Complexes


@dataclass(frozen=True, slots=True)
class Ring:
    """A letter at its place; ``leader`` is the point of its edge where it had to stand off the cloth."""

    seam: str
    line: str
    letter: str
    middle: complex
    leader: complex | None = None


def wide(letter: str) -> float:
    """The width of a ring about a letter in px."""
    return max(2 * RADIUS, width(letter, TYPE, bold=True) + 6.0)


def stretches_by_piece(nest: Nest) -> Mapping[str, Sequence[tuple[str, Stretch]]]:
    """By piece, what each seam takes of it."""
    found: dict[str, list[tuple[str, Stretch]]] = {ident: [] for ident in nest.pieces}
    for seam, sides in nest.sides.items():
        for side in sides:
            for stretch in side.stretches:
                found[stretch.graded.id].append((seam, stretch))
    return found


def taken_of(
    nest: Nest, graded: GradedPiece, sewn: Sequence[tuple[str, Stretch]], size: int, frame: Frame
) -> Iterator[Taken]:
    """What seams take of a piece in a size, every stretch of a line once for each seam."""
    seen: set[tuple[str, str, float, float]] = set()
    for seam, stretch in sewn:
        line = stretch.line
        if line.rows is None or not np.isfinite(stretch.length[size]):
            continue
        low, high = sorted((round(float(stretch.start[size]), 2), round(float(stretch.stop[size]), 2)))
        if (key := (seam, line.name, low, high)) not in seen:
            seen.add(key)
            at, outward = along(nest, graded, line, arcs_of(stretch, size), size, frame)
            yield Taken(seam, line.name, at, outward)


def arcs_of(stretch: Stretch, size: int) -> list[float]:
    """Positions on the line at SHARES of the stretch."""
    if stretch.line.intakes or stretch.line.closed:
        return [stretch.arc_at(share * float(stretch.length[size]), size) for share in SHARES]
    start, stop = float(stretch.start[size]), float(stretch.stop[size])
    return [start + share * (stop - start) for share in SHARES]


def placed(taken: Taken, letter: str, room: Room, inner: bool) -> Ring | None:
    """A letter where there is room for it, on the cloth if at all; the room is taken. None where there is none."""
    place = stand(taken.at, taken.outward, wide(letter), 2 * RADIUS, room, inner)
    return None if place is None else Ring(taken.seam, taken.line, letter, *place)


def stand(
    at: Complexes, outward: Complexes, far: float, tall: float, room: Room, inner: bool
) -> tuple[complex, complex | None] | None:
    """The middle of a box beside an edge, and the point of the edge where it had to stand off the cloth; the room is taken.

    ``at`` are points (px) of the edge, the best first, with the ways off the cloth; ``inner``: cloth lies on both sides.
    """
    reach = (np.abs(outward.real) * far + np.abs(outward.imag) * tall) / 2
    ways = (-1.0, 1.0) if inner else (-1.0,)
    within = [
        complex(z + way * (depth + half) * out)
        for depth in DEPTHS
        for way in ways
        for z, out, half in zip(at, outward, reach, strict=True)
    ]
    found, leader = room.free(within, far, tall, GAP, True), None
    if found:
        middle = within[found[0]]
    else:
        beside = [
            (complex(z + (depth + half) * out), complex(z))
            for depth in BESIDE
            for z, out, half in zip(at, outward, reach, strict=True)
        ]
        found = room.free([place for place, _ in beside], far, tall, GAP, False)
        if not found:
            return None
        clear = next((k for k in found if not room.meets_a_box(*beside[k])), found[0])
        middle, leader = beside[clear]
    room.take(middle, far, tall)
    return middle, leader


def leader(middle: complex, to: complex | None) -> str:
    """The line from what stands off the cloth to its edge."""
    if to is None:
        return ""
    a, b = middle + RADIUS * (to - middle) / abs(to - middle), to
    return ink.path(f"M{ink.n(a.real)} {ink.n(a.imag)}L{ink.n(b.real)} {ink.n(b.imag)}", "rule")


def pill(middle: complex, letter: str, fills: bool) -> Iterator[str]:
    """A letter in a ring, or in a longer one where there are several; filled where its seam does not fit."""
    kind = "ring filled" if fills else "ring"
    half = wide(letter) / 2 - RADIUS
    if half > 0:
        r, w = ink.n(RADIUS), ink.n(2 * half)
        x, y = ink.n(middle.real - half), ink.n(middle.imag - RADIUS)
        yield ink.path(
            f"M{x} {y}h{w}a{r} {r} 0 0 1 0 {ink.n(2 * RADIUS)}h-{w}a{r} {r} 0 0 1 0 -{ink.n(2 * RADIUS)}z",
            kind,
        )
    else:
        yield ink.ring(middle.real, middle.imag, RADIUS, kind)
    yield ink.text(
        middle.real, middle.imag + 0.36 * TYPE, letter, "letter filled" if fills else "letter", "mid"
    )
