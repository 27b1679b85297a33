"""How full a side is drawn up, on a scale of times the other side's length, with what is wanted in grey."""

from __future__ import annotations

import math
from collections.abc import Sequence

from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Judged
from notchwork.pictures.lettering import fitting, lines
from notchwork.pictures.seam.amounts import times
from notchwork.pictures.seam.axis import LEFT, RIGHT
from notchwork.pictures.seam.figures import wide
from notchwork.values import frozen

ROW = 17.0
"""px from row to row."""
LABEL = 120.0
"""px: as wide as the labels become at most."""
LINE = 14.0
BESIDE = 9.0
"""px from the middle of a row's mark to its figure."""
_TICKS = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 1000.0, 10000.0)


@frozen
class Row:
    """One interval or one size: its label, how many times as long it is, and what is wanted (least and most); whether it is
    let pass without being so."""

    label: str
    ratio: float
    judged: Judged
    wanted: tuple[float, float]
    is_let_pass: bool

    @property
    def figure(self) -> tuple[str, str]:
        """What is written beside it, and the kind of words that it is."""
        if self.judged != "fine":
            return times(self.ratio), "figure"
        return times(self.ratio) + (", let pass" if self.is_let_pass else ""), "strong"


def ratio_scale(title: str, rows: Sequence[Row]) -> tuple[list[str], float]:
    """The scale with its heading from y 0 down, and how high it is (px)."""
    left = LEFT + min(max(wide(row.label, "strong") for row in rows) + 4.0, LABEL)
    right = RIGHT - BESIDE - max(wide(*row.figure) for row in rows)
    values = [1.0, *(row.ratio for row in rows), *(bound for row in rows for bound in row.wanted)]
    low, high = min(values), max(values)
    tick = next((t for t in _TICKS if (high - low) / t <= 12.0), (high - low) / 12.0)
    low, high = math.floor(low / tick + 1e-9) * tick, math.ceil(high / tick - 1e-9) * tick
    high = high if high > low else low + tick
    px = (right - left) / (high - low)
    marks, y = [], 0.0
    for said in lines(title, RIGHT - LEFT, 11.0):
        y += LINE
        marks.append(ink.text(LEFT, y - 3.0, said, "muted"))
    y += 2.0
    bottom = y + ROW * len(rows)
    zones = [row.wanted for row in rows]
    for first, zone in enumerate(zones):
        if not first or zones[first - 1] != zone:
            same = next((k for k in range(first, len(rows)) if zones[k] != zone), len(rows)) - first
            x = left + (zone[0] - low) * px
            marks.append(ink.box(x, y + ROW * first, (zone[1] - zone[0]) * px, ROW * same, "fine"))
    for number, row in enumerate(rows):
        middle, x = y + ROW * (number + 0.5), left + (row.ratio - low) * px
        marks.append(ink.text(LEFT, middle + 4.0, fitting(row.label, LABEL, 12.0, bold=True), "strong"))
        marks.append(ink.path(f"M{n(left)} {n(middle)}H{n(x - 5.0)}", "on") if x - 5.0 > left else "")
        if row.judged == "fine":
            marks.append(ink.ring(x, middle, 5.0, "wanted"))
        else:
            marks.append(ink.box(x - 5.0, middle - 5.0, 10.0, 10.0, "off"))
        marks.append(ink.text(x + BESIDE, middle + 4.5, *row.figure))
    count = round((high - low) / tick)
    steps = "".join(f"M{n(left + k * tick * px)} {n(bottom)}v{4 if k % 5 else 7}" for k in range(count + 1))
    marks.append(ink.path(f"M{n(left)} {n(bottom)}H{n(right)}{steps}", "tick"))
    for k in range(0, count + 1, 5):
        marks.append(ink.text(left + k * tick * px, bottom + 18.0, f"{low + k * tick:.4g}", "muted", "mid"))
    return marks, bottom + 20.0
