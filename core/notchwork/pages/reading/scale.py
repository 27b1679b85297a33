"""Test squares, and what it means if they are not as long as they should be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.findings import Length, PersonUnit, worded
from notchwork.pages.paper import Size
from notchwork.pages.papers import INCH, papers
from notchwork.pages.setting.ink import LINE, Pen
from notchwork.values import frozen

METRIC, INCHES = 100.0, 4 * INCH
"""mm: the sides of the test squares, 100 mm and 4 in."""
MOST = 14_400 / 72 * 25.4
"""mm: no side of a page of a PDF is longer (ISO 32000-1, annex C, as told by vendors of PDF libraries)."""
OFF = 0.5
"""mm: what a ruler just shows."""
_PER_INCH = (72, 90, 96)
"""Units to the inch that programs count in: points, and pixels of an older and of today's use (CSS Values and Units: 96)."""


@frozen
class Reading:
    """What a test square measures as a share of its side, and what has then happened."""

    share: float
    words: str


def fitted(size: Size, onto: Size) -> float:
    """By what a page is multiplied that is fitted to another paper: the larger of both sides decides."""
    return min(onto.wide / size.wide, onto.tall / size.tall)


def wrong_readings(sizes: Sequence[Size]) -> tuple[Reading, ...]:
    """What may be read off a square that was not printed at its size, from the smallest; ``sizes`` are the papers meant."""
    found = [Reading(a / b, f"{a} px per inch taken for {b}") for a in _PER_INCH for b in _PER_INCH if a != b]
    found += _refitted(sizes)
    return tuple(sorted(found, key=lambda reading: reading.share))


def _refitted(sizes: Sequence[Size]) -> Iterator[Reading]:
    home, shop = papers("A4+Letter"), papers("A0+ARCH E")
    small = all(not size.is_roll and size.tall < 500.0 for size in sizes)
    for one, other in (home, home[::-1]) if small else (shop, shop[::-1]):
        yield Reading(fitted(one, other), f"{one.name} page fitted to {other.name}")


@frozen
class Square:
    """A test square: its side in mm, and the unit it is read in."""

    side: float
    unit: PersonUnit

    @property
    def words(self) -> str:
        """Its side as a ruler should show it."""
        return read_words(self.side, 1.0, self.unit) if self.unit == "in" else f"{self.side:g} mm"


def squares(first: PersonUnit, share: float = 1.0) -> tuple[Square, Square]:
    """Both squares, the one of the pattern's unit first; ``share`` of their full sides, where there is little room."""
    metric, inches = Square(METRIC * share, "mm"), Square(INCHES * share, "in")
    return (inches, metric) if first == "in" else (metric, inches)


def read_words(side: float, share: float, unit: PersonUnit) -> str:
    """What a ruler shows of a side of which only a share was printed; in inches to the sixteenth."""
    if unit == "in":
        return worded("{side}", {"side": Length(side * share)}, "in")
    return f"{side * share:.1f} mm"


def draw_square(pen: Pen, low: complex, side: float, width: float = LINE) -> None:
    """A test square: one closed stroke, ``side`` mm between the middles of its lines."""
    pen.box(low, low + complex(side, side), width=width)
