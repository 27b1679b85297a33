"""Where on the pieces a bay lies: what is pointed at here shows there too."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.pictures.laid import SAME, Bay, Laid
from notchwork.pictures.tokens import edge_token
from notchwork.sewing import SideWalk


def edges_of(laid: Laid, bay: Bay) -> str:
    """The edges of a bay on both sides, as the data attribute ``edges`` has them."""
    interval, size = bay.interval, laid.size
    one = _there(laid.comparison.one, float(interval.start.one[size]), float(interval.stop.one[size]), size)
    other = _there(
        laid.comparison.side, float(interval.start.other[size]), float(interval.stop.other[size]), size
    )
    return " ".join(dict.fromkeys([*one, *other]))


def _there(side: SideWalk, start: float, stop: float, size: int) -> Iterator[str]:
    for stretch, begins in zip(side.stretches, side.starts, strict=True):
        low = float(begins[size])
        high = low + float(stretch.length[size])
        if min(high, stop) - max(low, start) > SAME:
            yield edge_token(stretch.graded.id, stretch.line.name)
