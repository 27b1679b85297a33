"""Notches of the convention: points of the boundary, taken to the stitch line and joined to double and triple ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

import numpy as np

from notchwork.findings import Length
from notchwork.recognise.contours import CORNER
from notchwork.recognise.words.together import matched
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.names import Name
from notchwork_plugins.dxf.convention.outline import Ring
from notchwork_plugins.dxf.convention.rings import following
from notchwork_plugins.dxf.convention.sheet import Complexes, Sheet, Spot
from notchwork_plugins.dxf.convention.told import NOTCH_SHAPE, OFF, Told

ASIDE = 0.5
"""mm: a notch this far off every outline is told of."""
FARTHEST = 100.0
"""mm: what lies further off is none of the piece."""
SLANTED = 3.0
"""How many times further than to the nearest place of the stitch line a notch may run to meet it."""
NAMED = 15.0
"""mm: a text stands no further from the notch that it names."""


@dataclass(frozen=True, slots=True, eq=False)
class Foot:
    """Where a nick stands on the outline: its edge, the arc position (mm) on the polyline, the point, and the unit vector that
    points off the piece along the nick."""

    edge: int
    arc: float
    at: complex
    outward: complex
    spot: Spot
    number: int = -1
    """That of the spot on its sheet."""
    lean: float = 0.0
    """Radians by which the nick leans from square to the boundary, counter-clockwise."""


@dataclass(frozen=True, slots=True, eq=False)
class Notch:
    """One to three nicks on one edge; ``place_only``: it marks a place and meets nothing."""

    feet: tuple[Foot, ...]
    name: str | None = None
    place_only: bool = False

    @property
    def key(self) -> tuple[int, int]:
        return self.feet[0].edge, len(self.feet)


def feet_of(
    sheet: Sheet,
    ring: Ring,
    cut: Ring | None,
    told: Told | None = None,
    leans: Mapping[int, float] | None = None,
) -> list[Foot]:
    """The nicks of a block on its outline, in the outline's order.

    ``leans`` are how far they lean from square to the boundary, by their numbers: what was graded keeps that, and not its direction.
    """
    outline = sheet.lines[ring.line].z
    drawn = outline if cut is None else sheet.lines[cut.line].z
    walk = _Walk(outline, ring)
    boundary = _Walk(drawn, None)
    feet: list[Foot] = []
    for number, spot in enumerate(sheet.spots):
        if spot.layer not in layers.NOTCH_SHAPES:
            continue
        far, row, share = boundary.nearest(spot.at)
        near = walk.nearest(spot.at)
        off = min(far, near[0])
        if told is not None and off > ASIDE:
            _tell_off(sheet, spot, off, told)
        if off > FARTHEST:
            continue
        sewn = near[0] < far or cut is None
        square = boundary.outward(row, share)
        lean = _lean(spot, square) if leans is None else leans.get(number, 0.0)
        foot = walk.foot(spot, near) if sewn else walk.across(spot, square * np.exp(1j * lean), near)
        feet.append(replace(foot, number=number, lean=lean))
    return sorted(feet, key=lambda foot: (foot.edge, foot.arc))


def _lean(spot: Spot, square: complex) -> float:
    """How far (radians) a nick leans from square to the boundary; not at all where its direction is not said."""
    # An angle of nought is what is written where nothing is known, too.
    if spot.angle is None or (spot.angle % 360.0 == 0.0 and spot.depth is None):
        return 0.0
    return float(np.radians(spot.angle) - np.angle(square))


def _tell_off(sheet: Sheet, spot: Spot, off: float, told: Told) -> None:
    known = off <= FARTHEST
    told.at_line(
        OFF,
        "A notch of block “{name}” ({things}) lies {off} off its outline"
        + (", and is taken to the nearest place." if known else ", and is left out."),
        spot.line,
        "Look where it belongs.",
        name=sheet.name,
        off=Length(off),
    )


class _Walk:
    """A closed polyline with its arc lengths, and the edge of each way from vertex to vertex."""

    def __init__(self, z: Complexes, ring: Ring | None) -> None:
        self.z = z
        after = following(z)
        self.chord = after - z
        self.size = np.abs(self.chord)
        self.sense = 1.0 if np.vdot(z, after).imag >= 0 else -1.0
        self.edge = np.zeros(len(z), dtype=np.intp)
        self.begun = np.zeros(len(z))
        for edge in range(ring.count if ring is not None else 0):
            assert ring is not None
            ways = ring.chain(edge, len(z))[:-1]
            self.edge[ways] = edge
            self.begun[ways] = np.append(0.0, np.cumsum(self.size[ways])[:-1])

    def nearest(self, at: complex) -> tuple[float, int, float]:
        """How far off the nearest place is, on which way, and at which share of it."""
        share = np.clip(((at - self.z) * self.chord.conj()).real / np.maximum(self.size**2, 1e-18), 0.0, 1.0)
        far = np.abs(self.z + share * self.chord - at)
        row = int(far.argmin())
        return float(far[row]), row, float(share[row])

    def outward(self, row: int, share: float) -> complex:
        """Off the cloth at a place, smooth from way to way."""
        before, after = row - 1, (row + 1) % len(self.z)
        bent = (1.0 - share) * self._bend(row, before) + share * self._bend(row, after)
        unit = self.chord[row] / max(self.size[row], 1e-12)
        return complex(-1j * self.sense * unit * np.exp(1j * bent))

    def _bend(self, row: int, other: int) -> float:
        """By how much a curve turns from the middle of one way to where the other begins, as a circle through both has it."""
        turn = float(np.angle(self.chord[other] * self.chord[row].conj()))
        own, further = self.size[row], self.size[other]
        return turn * float(own / (own + further)) if abs(turn) < np.radians(CORNER) else 0.0

    def foot(self, spot: Spot, near: tuple[float, int, float]) -> Foot:
        _, row, share = near
        return self._at(spot, row, share, self.outward(row, share))

    def _at(self, spot: Spot, row: int, share: float, outward: complex) -> Foot:
        at = complex(self.z[row] + share * self.chord[row])
        return Foot(int(self.edge[row]), float(self.begun[row] + share * self.size[row]), at, outward, spot)

    def across(self, spot: Spot, way: complex, near: tuple[float, int, float]) -> Foot:
        """The place where the nick, running in a direction, meets the stitch line."""
        met = self._met(spot.at, way, SLANTED * near[0] + ASIDE)
        if met is None:
            return self.foot(spot, near)
        at_row, at_share = met
        foot = self._at(spot, at_row, at_share, way)
        step = spot.at - foot.at
        off = step / abs(step) if abs(step) > ASIDE else self.outward(at_row, at_share)
        return replace(foot, outward=complex(off))

    def _met(self, at: complex, way: complex, reach: float) -> tuple[int, float] | None:
        """The nearest place within reach (mm) where the straight line through a point meets the polyline."""
        start, chord = (self.z - at) / way, self.chord / way
        rise = np.where(np.abs(chord.imag) > 1e-12, chord.imag, 1.0)
        share = np.where(np.abs(chord.imag) > 1e-12, -start.imag / rise, -1.0)
        far = np.abs(start.real + share * chord.real)
        far = np.where((share >= 0.0) & (share <= 1.0) & (far <= reach), far, np.inf)
        row = int(far.argmin())
        return (row, float(share[row])) if np.isfinite(far[row]) else None


def joined(feet: Sequence[Foot], names: Sequence[Name]) -> tuple[list[Notch], list[Name]]:
    """Nicks as notches: up to three of one shape within ONE_NOTCH of each other on an edge, unless their names differ.

    With the names that stand on none of them.
    """
    called: dict[int, Name] = {}
    free: list[Name] = []
    places = np.array([(foot.spot.at, foot.at) for foot in feet], dtype=complex).reshape(-1, 2)
    left = np.ones(len(feet), dtype=bool)
    for name in names:
        far = np.where(left, np.abs(places - name.at).min(axis=1), np.inf)
        nearest = int(far.argmin()) if len(far) else 0
        if len(far) and far[nearest] <= NAMED:
            called[nearest], left[nearest] = name, False
        else:
            free.append(name)
    groups: list[list[int]] = []
    for k, foot in enumerate(feet):
        last = groups[-1] if groups else []
        if last and _goes_on(feet, last, foot) and not (k in called and any(j in called for j in last)):
            last.append(k)
        else:
            groups.append([k])
    found: list[Notch] = []
    for group in groups:
        own = next((called[k] for k in group if k in called), None)
        place_only = own is not None and own.more.get("use") == "place"
        found.append(Notch(tuple(feet[k] for k in group), None if own is None else own.name, place_only))
    return found, free


def _goes_on(feet: Sequence[Foot], group: Sequence[int], foot: Foot) -> bool:
    last = feet[group[-1]]
    near = foot.arc - last.arc <= layers.ONE_NOTCH
    return len(group) < 3 and last.edge == foot.edge and near and last.spot.layer == foot.spot.layer


def with_names(
    by_size: Mapping[str | None, Sequence[Notch]], base: str | None
) -> dict[str | None, list[Notch]]:
    """The same with a name for every notch, one for what is one notch in several sizes: "notch_1" and so on where the file
    gives none."""
    taken = {notch.name for notches in by_size.values() for notch in notches}
    free = (name for number in count(1) if (name := f"notch_{number}") not in taken)
    found: dict[str | None, list[Notch]] = {size: [] for size in by_size}
    for same in matched(by_size, base, lambda notch: notch.name, lambda notch: notch.key):
        name = next(iter(same.values())).name or next(free)
        for size, notch in same.items():
            found[size].append(replace(notch, name=name))
    for size, notches in by_size.items():
        # A size may have notches that the others do not have.
        known = {notch.feet[0] for notch in found[size]}
        found[size] += [replace(notch, name=next(free)) for notch in notches if notch.feet[0] not in known]
    return found


def tell_shapes(sheet: Sheet, told: Told) -> None:
    """Say that the shape in which notches are cut is not kept."""
    for spot in sheet.spots:
        if spot.layer in layers.NOTCH_SHAPES and spot.layer != layers.NOTCHES:
            told.at_line(
                NOTCH_SHAPE,
                "Notches that are cut as {shape} are read as notches ({things}).",
                spot.line,
                shape=layers.NOTCH_SHAPES[spot.layer],
            )
