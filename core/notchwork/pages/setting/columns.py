"""Words set in columns: items are laid one below another, and go on in the next column where one is full."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from notchwork.pages.setting.ink import FINE, Pen
from notchwork.pages.setting.lettering import at_most
from notchwork.values import frozen

BODY, HEAD, SMALL = 3.3, 4.6, 2.8
"""mm: sizes of type."""
LEADING = 1.36
"""From one base line to the next, as a share of the type's size."""
_ASCENT = 0.95
"""From the top of a line down to its base line, as a share of the type's size."""
MOST_LINES = 24
"""No more lines in one item: what is longer is no name, and would find room in no column."""
_PASSED = 4
"""As many columns in a row are passed over for one item."""


@frozen
class Block:
    """What takes ``tall`` mm of a column, drawn from its upper left corner; ``before`` is left free unless it stands at the top.

    ``keep``: it stays with what follows.
    """

    tall: float
    draw: Callable[[Pen, complex], None]
    before: float = 0.0
    keep: bool = False


Item = Callable[[float], Block]
"""By the width of a column (mm) what stands in it."""


@frozen
class Area:
    """A column: a pen, its upper left corner, its width and height (mm)."""

    pen: Pen
    corner: complex
    wide: float
    tall: float


def paragraph(
    words: str,
    height: float = BODY,
    bold: bool = False,
    before: float = 1.6,
    indent: float = 0.0,
    sign: str = "",
    keep: bool = False,
    most: int = MOST_LINES,
) -> Item:
    """Words that wrap, in ``most`` lines at most; ``sign`` stands before the first line, in the indent."""

    def item(wide: float) -> Block:
        lines = at_most(most, words, height, wide - indent, bold)

        def draw(pen: Pen, corner: complex) -> None:
            base = corner - 1j * _ASCENT * height
            if sign:
                pen.words(base, sign, height)
            for k, line in enumerate(lines):
                pen.words(base + indent - 1j * LEADING * height * k, line, height, bold)

        return Block(LEADING * height * len(lines), draw, before, keep)

    return item


def heading(words: str) -> Item:
    """A heading with a line above it, which stays with what follows."""

    def item(wide: float) -> Block:
        lines = at_most(MOST_LINES, words, HEAD, wide, bold=True)

        def draw(pen: Pen, corner: complex) -> None:
            pen.line(corner, corner + wide, width=FINE)
            for k, line in enumerate(lines):
                pen.words(corner - 1j * (1.8 + _ASCENT * HEAD + LEADING * HEAD * k), line, HEAD, bold=True)

        return Block(1.8 + LEADING * HEAD * len(lines), draw, 4.0, keep=True)

    return item


def row(
    cells: Sequence[tuple[float, str]], height: float = BODY, bold: bool = False, before: float = 0.8
) -> Item:
    """A row of a table: each cell's share of the width, and its words, which wrap."""

    def item(wide: float) -> Block:
        set_cells, left = [], 0.0
        for share, words in cells:
            set_cells.append((left, at_most(MOST_LINES, words, height, share * wide - 1.5, bold)))
            left += share * wide

        def draw(pen: Pen, corner: complex) -> None:
            for start, lines in set_cells:
                for k, line in enumerate(lines):
                    at = corner + start - 1j * height * (_ASCENT + LEADING * k)
                    pen.words(at, line, height, bold)

        return Block(LEADING * height * max(len(lines) for _, lines in set_cells), draw, before)

    return item


def flow(items: Sequence[Item], areas: Iterable[Area]) -> int:
    """Sets items in columns, each whole in one, and gives how many of them found room.

    Columns that are too small are passed over; what is too tall for several in a row is set all the same.
    """
    columns = iter(areas)
    area = next(columns, None)
    down, k, passed = 0.0, 0, 0
    while k < len(items) and area is not None:
        blocks = list(_kept(items, k, area.wide))
        tall = sum(block.tall + block.before for block in blocks) - (0.0 if down else blocks[0].before)
        if down + tall > area.tall and (down or passed < _PASSED):
            passed = 0 if down else passed + 1
            area, down = next(columns, None), 0.0
            continue
        for block in blocks:
            down += block.before if down else 0.0
            block.draw(area.pen, area.corner - 1j * down)
            down += block.tall
        k += len(blocks)
        passed = 0
    return k


def _kept(items: Sequence[Item], start: int, wide: float) -> Iterator[Block]:
    for item in items[start:]:
        block = item(wide)
        yield block
        if not block.keep:
            return
