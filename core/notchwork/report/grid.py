"""Figures in all sizes: a row for each thing, a column for each size, in as many blocks as the width demands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.findings import safe
from notchwork.report.paper import Paper, columns, shortened

_GAP = 2
_WIDEST_HEAD = 16

Row = tuple[str, Sequence[str]]
"""A label and its cells, one for each column; without cells the label stands over the rows that follow."""


def grid(heads: Sequence[str], rows: Sequence[Row], paper: Paper, indent: int = 0) -> list[str]:
    """The rows under the heads of their columns; no line of heads where none of them has words."""
    heads = [shortened(safe(head), _WIDEST_HEAD) for head in heads]
    room = paper.width - indent
    widths = [
        max(columns(safe(cell)) for cell in column)
        for column in zip(heads, *(cells for _, cells in rows if cells), strict=True)
    ]
    label = max((columns(safe(text)) for text, cells in rows if cells), default=0)
    label = min(label, max(room - _GAP - max(widths, default=0), room // 3))
    blocks = list(_blocks(widths, room - label))
    return [
        line
        for number, block in enumerate(blocks)
        for line in (
            *([""] if number else []),
            *_block(heads, rows, [(k, widths[k]) for k in block], label, paper, indent),
        )
    ]


def _blocks(widths: Sequence[int], room: int) -> Iterator[list[int]]:
    """The columns that stand side by side, by number: as many as there is room for, one at least."""
    block: list[int] = []
    used = 0
    for k, width in enumerate(widths):
        if block and used + _GAP + width > room:
            yield block
            block, used = [], 0
        block.append(k)
        used += _GAP + width
    yield block


def _block(
    heads: Sequence[str],
    rows: Sequence[Row],
    block: Sequence[tuple[int, int]],
    label: int,
    paper: Paper,
    indent: int,
) -> Iterator[str]:
    def line(text: str, cells: Sequence[str]) -> str:
        figures = "".join(_right(safe(cells[k]), width + _GAP) for k, width in block)
        return (" " * indent + _left(shortened(safe(text), label), label) + figures).rstrip()

    if any(heads):
        yield line("", heads)
    for text, cells in rows:
        if cells:
            yield line(text, cells)
        else:
            yield from paper.wrapped(text, indent)


def _left(text: str, width: int) -> str:
    return text + " " * (width - columns(text))


def _right(text: str, width: int) -> str:
    return " " * (width - columns(text)) + text
