"""The first pages: what the pattern is, whether it was printed at its size, and what is to be cut."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from notchwork.findings import listed
from notchwork.pages.reading.matter import FULL_SIZE, Matter, contents, how_to, readings
from notchwork.pages.reading.scale import draw_square, squares
from notchwork.pages.setting.columns import BODY, LEADING, Area, Item, flow, paragraph
from notchwork.pages.setting.ink import STRONG, Pen
from notchwork.pages.setting.lettering import at_most, wrapped
from notchwork.values import frozen

FIRST = "First page"
GUTTER = 8.0
"""mm between columns."""
LEAST_COLUMN = 52.0
"""mm: beside the squares no column is narrower."""
_COLUMN = 82.0
"""mm: on pages of their own columns are not narrower, if there can be two."""
_LEAST_TALL = 14.0
"""mm: below the squares nothing is set in less."""
_APART, _PAD = 5.0, 5.0
_TITLE, _WARNING = 9.0, 5.0
_MOST_LINES = 3
"""Of maker and licence: the squares below must find room."""


@frozen
class Room:
    """A rectangle on a page (mm)."""

    low: complex
    high: complex

    def area(self, pen: Pen) -> Area:
        """It as a column."""
        return Area(pen, complex(self.low.real, self.high.imag), *_size(self))


def front(matter: Matter, size: complex, margin: float) -> tuple[Pen, ...]:
    """The pages, one pen each: title, test squares and, as far as there is room, all the rest; more pages as needed."""
    page = Room(complex(margin, margin), size - complex(margin, margin))
    pens = [Pen()]
    rooms, over = draw_squares(
        pens[0], matter, Room(page.low, complex(page.high.real, _head(pens[0], matter, page)))
    )

    def columns() -> Iterator[Area]:
        yield from (room.area(pens[0]) for room in rooms)
        while True:
            pens.append(Pen())
            for room in in_columns(page):
                yield room.area(pens[-1])

    flow([*over, *contents(matter)], columns())
    return tuple(pens)


def sheet_front(pen: Pen, matter: Matter, room: Room) -> bool:
    """The same in a rectangle across the top of a large sheet; whether all of it found room."""
    rooms, over = draw_squares(pen, matter, room)
    beside, *others = rooms or (room,)
    if beside.high.imag < room.high.imag or len(rooms) == 0:
        return False
    columns = list(in_columns(Room(beside.low, complex(beside.high.real, _head(pen, matter, beside)))))
    items = [*over, *contents(matter)]
    return flow(items, (each.area(pen) for each in (*columns, *others))) == len(items)


def in_columns(room: Room) -> Iterator[Room]:
    """A page as columns of one width, from the left."""
    wide, _ = _size(room)
    count = max(1, int((wide + GUTTER) // (_COLUMN + GUTTER)))
    each = (wide - GUTTER * (count - 1)) / count
    for k in range(count):
        left = room.low.real + k * (each + GUTTER)
        yield Room(complex(left, room.low.imag), complex(left + each, room.high.imag))


def draw_squares(pen: Pen, matter: Matter, room: Room) -> tuple[tuple[Room, ...], list[Item]]:
    """The test squares from the upper left corner, words in them; gives what room is left, and the words that found none."""
    wide, tall = _size(room)
    both = squares(matter.drawing.unit)
    sides = [square.side for square in both]
    corner = complex(room.low.real, room.high.imag)
    if max(sides) <= wide and sum(sides) + _APART <= tall:
        places = (corner, corner - 1j * (sides[0] + _APART))
        used = complex(max(sides), sum(sides) + _APART)
    elif sum(sides) + GUTTER <= wide and max(sides) <= tall:
        places = (corner, corner + sides[0] + GUTTER)
        used = complex(sum(sides) + GUTTER, max(sides))
    else:
        both = squares(matter.drawing.unit, 0.5)
        places = (corner, corner + both[0].side + GUTTER)
        used = complex(both[0].side + GUTTER + both[1].side, max(both[0].side, both[1].side))
        for square, place in zip(both, places, strict=True):
            draw_square(pen, place - 1j * square.side, square.side)
            pen.words(place + complex(_PAD, -_PAD - BODY), square.words, BODY, bold=True)
        return _left(room, used), [*how_to(matter, *both), *readings(matter, *both)]
    over: list[Item] = []
    for square, place, items in zip(
        both, places, (list(how_to(matter, *both)), list(readings(matter, *both))), strict=True
    ):
        draw_square(pen, place - 1j * square.side, square.side)
        inner = square.side - 2 * _PAD
        found = flow(items, [Area(pen, place + complex(_PAD, -_PAD), inner, inner)])
        over += items[found:]
    return _left(room, used), over


def _left(room: Room, used: complex) -> tuple[Room, ...]:
    """What is left of a room beside and below what is used of its upper left corner."""
    right = room.low.real + used.real + GUTTER
    below = room.high.imag - used.imag - _APART
    rooms: list[Room] = []
    if room.high.real - right >= LEAST_COLUMN:
        rooms.append(Room(complex(right, room.low.imag), room.high))
        under = Room(room.low, complex(room.low.real + used.real, below))
    else:
        under = Room(room.low, complex(room.high.real, below))
    if _size(under)[1] > _LEAST_TALL:
        rooms += in_columns(under)
    return tuple(rooms)


def _head(pen: Pen, matter: Matter, page: Room) -> float:
    """Title, maker, licence, and the warning that matters most; gives how far down they reach (mm from below)."""
    wide, _ = _size(page)
    left, y = page.low.real, page.high.imag
    for line in at_most(2, matter.drawing.title or "Pattern", _TITLE, wide, bold=True):
        pen.words(complex(left, y - 0.85 * _TITLE), line, _TITLE, bold=True)
        y -= 1.25 * _TITLE
    for words in _about(matter):
        block = paragraph(words, most=_MOST_LINES)(wide)
        block.draw(pen, complex(left, y))
        y -= block.tall
    y -= 2.0
    said = wrapped(FULL_SIZE, _WARNING, wide - 2 * _PAD, bold=True)
    tall = LEADING * _WARNING * len(said) + 3.4
    pen.box(complex(left, y - tall), complex(left + wide, y), width=STRONG)
    for k, line in enumerate(said):
        pen.words(
            complex(left + _PAD, y - 1.7 - 0.98 * _WARNING - LEADING * _WARNING * k),
            line,
            _WARNING,
            bold=True,
        )
    return y - tall - _APART


def _about(matter: Matter) -> Iterator[str]:
    about, sizes = matter.drawing.about, matter.drawing.sizes
    made = " · ".join(
        chain(("by " + about.author,) if about.author else (), (about.license,) if about.license else ())
    )
    if made:
        yield made
    paper = f"for {listed([size.name for size in matter.sizes], 'or')} paper" if matter.sizes else ""
    worn = ("size " if len(sizes) == 1 else "sizes ") + listed(sizes) if sizes else ""
    if words := " · ".join(part for part in (worn, paper) if part):
        yield words[0].upper() + words[1:]


def _size(room: Room) -> tuple[float, float]:
    size = room.high - room.low
    return size.real, size.imag
