"""A sign where the verdict tells of a piece and no box shows it: what it says, where it finds room, and how it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.findings import Severity
from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Complexes
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.rings import GAP, leader, stand
from notchwork.pictures.glance.room import Room
from notchwork.pictures.glance.spots import OF_THE_GRAIN, Spot, spot_of
from notchwork.pictures.glance.told import Told
from notchwork.pictures.signs import SMALL as SIDE
from notchwork.pictures.signs import small
from notchwork.pictures.tokens import token
from notchwork.sewing import GradedPiece, Nest

AROUND: Complexes = np.concatenate(
    [far * np.exp(2j * np.pi * np.arange(16) / 16) for far in (9.5, 11.0, 13.0, 16.0, 20.0, 26.0, 34.0, 46.0)]
)
"""Places (px) about a point where its sign may stand, the best first."""
FAR = 17.0
"""px from its point from which a sign has a line to it."""


@dataclass(slots=True, eq=False)
class Sign:
    """What is told at one spot of a piece, with the worst of its severities.

    ``middle`` is None as long as it is to stand beside the piece's name; ``leader`` is the point that it stands for, where
    that is not plain.
    """

    told: Sequence[Told]
    middle: complex | None = None
    leader: complex | None = None

    @property
    def severity(self) -> Severity:
        return max(told.severity for told in self.told)


def sign_spots(
    nest: Nest, graded: GradedPiece, tolds: Sequence[Told], size: int, frame: Frame, room: Room
) -> Iterator[Sign]:
    """A sign for every spot of a piece; one for all that names no spot or finds no room there, to stand by the name."""
    by_spot: dict[tuple[str, ...], tuple[Spot, list[Told]]] = {}
    by_name: list[Told] = []
    for told in tolds:
        spot = spot_of(nest, graded, told, size, frame)
        if spot is None:
            by_name.append(told)
        else:
            by_spot.setdefault(spot.key, (spot, []))[1].append(told)
    for spot, here in by_spot.values():
        place = _placed(spot, room)
        if place is None:
            by_name += here
        else:
            yield Sign(_each_once(here), *place)
    if by_name:
        yield Sign(_each_once(by_name))


def _each_once(tolds: Sequence[Told]) -> list[Told]:
    return list({id(told.graded): told for told in tolds}.values())


def _placed(spot: Spot, room: Room) -> tuple[complex, complex | None] | None:
    """Where a sign has room, on the cloth if at all; the room is taken."""
    if spot.outward is not None:
        return stand(spot.at, spot.outward, SIDE, SIDE, room, spot.inner)
    point = complex(spot.at[0])
    around = (point + AROUND[np.abs(AROUND) >= spot.clear]).tolist()
    for within in (True, False):
        if found := room.free(around, SIDE, SIDE, GAP, within):
            middle = complex(around[found[0]])
            room.take(middle, SIDE, SIDE)
            return middle, point if abs(middle - point) > FAR else None
    return None


def of_thread(put: Sign) -> bool:
    """Whether a sign is about the lengthwise thread."""
    return any(told.graded.rule.id in OF_THE_GRAIN for told in put.told)


def sign_marks(put: Sign) -> str:
    """A sign at its place, which says what is wrong when it is pointed at, and refers to what is told and to the seams that are concerned."""
    if put.middle is None:
        return ""
    seams = dict.fromkeys(
        place.seam for told in put.told for place in told.graded.places if place.seam is not None
    )
    half = SIDE / 2 + 1.0
    marks = [
        leader(put.middle, put.leader),
        ink.box(put.middle.real - half, put.middle.imag - half, 2 * half, 2 * half, "hot"),
        small(put.severity, put.middle),
    ]
    says = " ".join(told.says for told in put.told)
    data = {"findings": " ".join(str(told.number) for told in put.told)}
    return ink.group(marks, says, data | ({"seam": " ".join(map(token, seams))} if seams else {}))
