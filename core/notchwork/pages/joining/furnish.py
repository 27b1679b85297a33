"""What stands on a page of pieces beside them: where it joins others, its label, and whose it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.drawing import Group
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.marks import BESIDE, HALF, draw_joins
from notchwork.pages.joining.tiles import Tile, names_on
from notchwork.pages.joining.touch import Traces, together
from notchwork.pages.paper import Join
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.lettering import shortened, width
from notchwork.pages.sheet import Sheet

LABEL, NOTE = 11.0, 2.8
"""mm: type of the label, and of what stands below it."""
_MOST = 62.0
"""mm: lines below the label are no wider."""
_LEADING = 1.4
_SMALLER = (1.0, 0.8, 0.6)
"""What is tried where there is no free place for the label at its full size."""
_ACROSS, _UP = 17, 25
"""Places that are tried across a page and up it."""
ALONE = "Nothing is joined to this page."


def furnished(
    tile: Tile,
    groups: Sequence[Group],
    drawn: Sequence[Traces],
    frame: Frame,
    join: Join,
    title: str,
    number: int,
    total: int,
) -> Sheet:
    """A page of pieces with its marks; it is the ``number``-th of ``total``, from 1."""
    pen = Pen()
    here = together(
        [
            drawn[window.group].moved(window.turn, window.shift).within(window.low, window.high)
            for window in tile.windows
        ]
    )
    draw_joins(pen, frame, join, tile.label, tile.neighbours, here)
    names = ", ".join(names_on(tile, groups))
    said = [names] if names else []
    said.append(f"{title} · page {number} of {total}" if title else f"page {number} of {total}")
    if not tile.neighbours:
        said.append(ALONE)
    _label(pen, tile, frame, said, here)
    return Sheet(frame.size, tile.windows, pen.group(), tile.label, names)


def _label(pen: Pen, tile: Tile, frame: Frame, said: Sequence[str], here: Traces) -> None:
    for scale in _SMALLER:
        label, note = scale * LABEL, max(scale, 0.85) * NOTE
        lines = [shortened(words, note, _most(frame)) for words in said]
        wide = max([width(tile.label, label, True), *(width(words, note) for words in lines)])
        tall = 0.95 * label + _LEADING * note * len(lines) + 0.25 * note
        places = list(_places(tile, frame, complex(wide, tall)))
        found = [here.reach_into(at, at + complex(wide, tall)) for at in places]
        if min(found) == 0:
            break
    at = places[found.index(min(found))]
    top = at + 1j * tall
    pen.words(top - 0.78j * label, tile.label, label, bold=True)
    for k, words in enumerate(lines, 1):
        pen.words(top - 1j * (0.95 * label + _LEADING * note * k), words, note)


def _places(tile: Tile, frame: Frame, size: complex) -> Iterator[complex]:
    """Lower left corners where a block may stand, clear of the marks: the corners of the page, then others, near its rim first."""
    low, high = frame.low + 2 + 2j, frame.high - 2 - 2j
    aside = frame.reach + max(HALF, BESIDE) + 1.0
    if "left" in tile.neighbours:
        low += aside
    if "right" in tile.neighbours:
        high -= aside
    if "below" in tile.neighbours:
        low += 1j * aside
    if "above" in tile.neighbours:
        high -= 1j * aside
    last = high - size
    room = complex(max(0.0, (last - low).real), max(0.0, (last - low).imag))
    corners = (1j, 0j, 1 + 1j, 1 + 0j)
    others = [complex(c / (_ACROSS - 1), r / (_UP - 1)) for c in range(_ACROSS) for r in range(_UP)]
    others.sort(key=lambda share: min(share.real, 1 - share.real) + min(share.imag, 1 - share.imag))
    for share in (*corners, *others):
        at = low + complex(share.real * room.real, share.imag * room.imag)
        # Where all of that is too narrow, it stands over a line of joining, never beyond the margin.
        most = frame.high - size
        yield complex(
            max(frame.low.real, min(at.real, most.real)), max(frame.low.imag, min(at.imag, most.imag))
        )


def _most(frame: Frame) -> float:
    return min(_MOST, frame.usable.real - 24.0)
