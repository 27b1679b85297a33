"""How text is laid on a terminal: its width, its colours, and nothing in it that could steer the terminal."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence

from notchwork.findings import Severity, safe
from notchwork.values import frozen

_CODES = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.INFO: "36"}

_MEASURE = re.compile(r"(?<=\d) (?=(?:mm|cm|in|%)(?!\w)|\d+/\d)")
"""The space inside a measure, where no line is broken."""

_LEAST_BESIDE = 24
"""Columns: what is said of a term stands beside it where it has as many."""

_BELOW = 4


@frozen
class Paper:
    """What is written on: so many columns wide, with colours or without."""

    width: int = 80
    colour: bool = False

    def severity(self, severity: Severity) -> str:
        return self._inked(severity.word, _CODES[severity])

    def heading(self, text: str) -> str:
        return self._inked(safe(text), "1")

    def headings(self, text: str) -> list[str]:
        """A heading in lines no wider than the paper."""
        return [self.heading(line) for line in self.wrapped(text)]

    def faint(self, text: str) -> str:
        return self._inked(safe(text), "2")

    def _inked(self, text: str, code: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.colour else text

    def wrapped(self, text: str, indent: int = 0) -> list[str]:
        """A paragraph in lines no wider than the paper, each indented; a longer word stands alone on its line."""
        held = _MEASURE.sub("\u00a0", safe(text))
        lines = _lines(held, max(self.width - indent, 20))
        return [" " * indent + line.replace("\u00a0", " ") for line in lines]

    def terms(self, rows: Sequence[tuple[str, str]], indent: int = 0) -> list[str]:
        """Terms, each with what is said of it beside it, or below it where there is no room beside."""
        room = indent + max((columns(safe(term)) for term, _ in rows), default=0) + 2
        beside = self.width - room >= _LEAST_BESIDE
        lines: list[str] = []
        for term, text in rows:
            said = self.wrapped(text, room if beside else indent + _BELOW)
            shown = " " * indent + safe(term)
            if beside and said:
                lines.append(shown + " " * (room - columns(shown)) + said.pop(0).lstrip())
            else:
                lines.append(shown)
            lines += said
        return lines


def columns(text: str) -> int:
    """How many columns a text takes up: East Asian wide characters take two, combining marks none."""
    return sum(
        0 if unicodedata.combining(sign) else 2 if unicodedata.east_asian_width(sign) in "WF" else 1
        for sign in text
    )


def shortened(text: str, width: int) -> str:
    """The text, cut off with an ellipsis where it takes up more columns."""
    if columns(text) <= width:
        return text
    kept, used = 0, 0
    for sign in text:
        used += columns(sign)
        if used >= width:
            break
        kept += 1
    return text[:kept].rstrip() + "…"


def table(rows: Sequence[Sequence[str]], indent: int = 0, left: int = 1) -> list[str]:
    """Rows set in columns: the first ``left`` columns flush left, the others (figures) flush right."""
    cleaned = [[safe(cell) for cell in row] for row in rows]
    widths = [max(columns(cell) for cell in column) for column in zip(*cleaned, strict=True)]
    return [
        " " * indent
        + "  ".join(
            cell + gap if index < left else gap + cell
            for index, (cell, width) in enumerate(zip(row, widths, strict=True))
            for gap in [" " * (width - columns(cell))]
        ).rstrip()
        for row in cleaned
    ]


def figures(rows: Sequence[Sequence[str]], paper: Paper, indent: int = 0) -> list[str]:
    """Rows of figures under their heads, the first row; where there is no room for columns, a line of words for each row."""
    lines = table(rows, indent) if rows else []
    if all(columns(line) <= paper.width for line in lines):
        return lines
    heads, *rest = rows
    return [
        line
        for row in rest
        for line in paper.wrapped(
            ", ".join(f"{head} {cell}" for head, cell in zip(heads, row, strict=True)), indent
        )
    ]


def _lines(text: str, width: int) -> Iterator[str]:
    line, used = "", 0
    for word in text.split(" "):
        wide = columns(word)
        if line and used + 1 + wide > width:
            yield line
            line, used = word, wide
        else:
            line, used = (f"{line} {word}", used + 1 + wide) if line else (word, wide)
    if line:
        yield line
