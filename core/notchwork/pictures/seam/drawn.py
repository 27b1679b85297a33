"""The cloth of one bay on its chord: straight where it fits, hanging off where it is too long, as much as it is too long."""

from __future__ import annotations

from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Bay
from notchwork.pictures.seam.bulge import Bulge, bulge
from notchwork.pictures.seam.wave import Wave, wave
from notchwork.values import frozen

THICK, THIN = 11.0, 8.0
"""px: how wide a band of cloth is; in strips by size."""
NARROW, LOW = 12.0, 3.0
"""px: what is off on less than this, or hangs off by less, gets a sign that hangs from it."""
DIAMOND = 10.0
"""px: how wide that sign is."""
_CHORD = 0.5
"""px: on less than this nothing can hang."""


@frozen
class Cloth:
    """One bay drawn from ``left`` to ``right`` (px), the seam line at y 0; ``way`` is where it hangs: +1 down, -1 up, 0 not.

    ``reach``: how far beyond the seam line its cloth reaches (px), with the band.
    """

    bay: Bay
    left: float
    right: float
    way: int
    thick: float
    hangs: Bulge | Wave | None
    reach: float

    @property
    def middle(self) -> float:
        return (self.left + self.right) / 2.0

    @property
    def has_sign(self) -> bool:
        """Whether it is too small to be seen, and is off."""
        if self.bay.judged == "fine":
            return False
        low = isinstance(self.hangs, Bulge) and self.reach - self.thick < LOW and self.bay.judged != "little"
        return self.right - self.left < NARROW or low

    def at(self, further: bool, share: float) -> complex:
        """Where a share of a side's cloth lies (px)."""
        if isinstance(self.hangs, Bulge) and further == (self.way > 0):
            return self.left + self.hangs.at(share, self.way)
        return complex(self.left + share * (self.right - self.left))


def cloth(bay: Bay, left: float, right: float, scale: float, thick: float) -> Cloth:
    """A bay drawn between two pins (px), with ``scale`` px a mm."""
    chord = right - left
    way = 0 if bay.shape == "flat" else 1 if bay.other >= bay.one else -1
    if bay.shape == "flat" or chord < _CHORD:
        return Cloth(bay, left, right, way, thick, None, thick)
    long = max(bay.one, bay.other) * scale
    if bay.shape == "wave":
        waved = wave(chord, long / chord)
        return Cloth(bay, left, right, way, thick, waved, 2.0 * waved.height + 2.0)
    hangs = bulge(chord, long)
    height = hangs.height
    if bay.judged == "little" and bay.wanted is not None:
        height = max(height, bulge(chord, bay.wanted[0] * scale).height)
    return Cloth(bay, left, right, way, thick, hangs, height + thick)


def cloth_marks(drawn: Cloth, kinds: tuple[str, str], scale: float) -> list[str]:
    """Both bands, and what lies between them; ``kinds`` are the looks of the upper and of the lower cloth."""
    hangs, way, start = drawn.hangs, drawn.way, f"M{n(drawn.left)} 0"
    marks = []
    if isinstance(hangs, Bulge):
        marks += _between(drawn, hangs, scale)
    for side, kind in ((-1, kinds[0]), (1, kinds[1])):
        if side == way and isinstance(hangs, Wave):
            marks += wave_marks(drawn, hangs, side * drawn.reach / 2.0, "wave" if side > 0 else "wave-one")
        elif side == way and isinstance(hangs, Bulge):
            edge = f"{start}{hangs.path(way)}v{n(side * drawn.thick)}{hangs.path(way, back=True)}z"
            marks.append(ink.path(edge, kind))
        else:
            marks.append(ink.path(f"{start}H{n(drawn.right)}v{n(side * drawn.thick)}H{n(drawn.left)}z", kind))
    if isinstance(hangs, Bulge) and drawn.bay.judged == "little":
        marks.append(_lacking(drawn, hangs, scale))
    if drawn.has_sign:
        marks.append(_hanging_sign(drawn))
    return marks


def wave_marks(drawn: Cloth, waved: Wave, y: float, kind: str) -> list[str]:
    """A wave about a middle line (px); hatched behind it where it is not as wanted."""
    d = f"M{n(drawn.left)} {n(y)}{waved.path()}"
    marks = []
    if drawn.bay.judged != "fine":
        high = waved.height + 3.0
        marks.append(ink.box(drawn.left, y - high, drawn.right - drawn.left, 2.0 * high, "off pale"))
        marks.append(ink.path(d, "halo"))
    return [*marks, ink.path(d, kind)]


def _between(drawn: Cloth, hangs: Bulge, scale: float) -> list[str]:
    """What fills the room between the seam line and the cloth that hangs off it."""
    bay, way, start = drawn.bay, drawn.way, f"M{n(drawn.left)} 0"
    if not hangs.angle:
        return []
    if bay.judged == "off":
        return [ink.path(f"{start}{hangs.path(way)}z", "off")]
    if bay.judged == "much" and bay.wanted is not None:
        most = bulge(hangs.chord, bay.wanted[1] * scale)
        inner = [ink.path(f"{start}{most.path(way)}z", "wanted")] if most.angle else []
        return [*inner, ink.path(f"{start}{hangs.path(way)}{most.path(way, back=True)}z", "off")]
    return [ink.path(f"{start}{hangs.path(way)}z", "wanted")]


def _lacking(drawn: Cloth, hangs: Bulge, scale: float) -> str:
    """The crescent where cloth should hang, but does not."""
    assert drawn.bay.wanted is not None
    least = bulge(hangs.chord, drawn.bay.wanted[0] * scale)
    way = drawn.way or 1
    start = f"M{n(drawn.left)} {n(way * drawn.thick)}"
    return ink.path(f"{start}{least.path(way)}{hangs.path(way, back=True)}z", "missing")


def _hanging_sign(drawn: Cloth) -> str:
    """A diamond on a line, which says that something is off where that is too small to be seen."""
    way, half = drawn.way or 1, DIAMOND / 2.0
    x, y = n(drawn.middle), way * drawn.reach
    line = ink.path(f"M{x} {n(y)}v{n(way * half)}", "gone")
    return line + ink.path(
        f"M{x} {n(y + way * half)}l{n(half)} {n(way * half)}l{n(-half)} {n(way * half)}l{n(-half)} {n(-way * half)}z",
        "off",
    )


def bottom_of(drawn: Cloth) -> float:
    """How far from the seam line (px) everything drawn of it reaches, on the side where it hangs."""
    return drawn.reach + (1.5 * DIAMOND if drawn.has_sign else 0.0)
