"""What is said of a pattern on its first page, item by item."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from notchwork.drawing import CutRow, Drawing, Stroke
from notchwork.geometry import bounds
from notchwork.pages.paper import Size
from notchwork.pages.reading.scale import METRIC, OFF, Square, read_words, wrong_readings
from notchwork.pages.setting.columns import BODY, LEADING, SMALL, Block, Item, heading, paragraph, row
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import name_of
from notchwork.pages.setting.lettering import wrapped

FULL_SIZE = "Print at 100 % (“actual size”), not fitted to the page."
SAFETY = (
    "Sew a trial garment of cheap cloth first.",
    "Iron, scissors and blades hurt: keep to the safety rules of the place where you work.",
)
"""Where the drawing brings no cautions of its own."""
_SAMPLE, _ROW = 16.0, 5.2
"""mm: how long a line's sample in the legend is, and how high its row."""
_TABLE = 3.1
_READ = 3.7
"""mm: type in the test squares."""
_CHUNK = 300
"""Letters of a description in one item."""


@dataclass(frozen=True, slots=True, eq=False)
class Matter:
    """The pattern, the papers it was laid out for, where each piece is found by its group's name, and how many pages there are.

    ``is_sheet``: the pieces lie on the same sheet."""

    drawing: Drawing
    sizes: Sequence[Size]
    found: Mapping[str, str] = field(default_factory=dict)
    counted: Sequence[str] = ()
    is_sheet: bool = False


def how_to(matter: Matter, one: Square, other: Square) -> Iterator[Item]:
    """What to do with the test squares; stands in or beside ``one``."""
    first = "Measure before anything else" if matter.is_sheet else "Print this page first, and measure"
    then = (
        "the pieces have their size"
        if matter.is_sheet
        else "print the other pages without changing a setting"
    )
    yield paragraph(first, 4.2, bold=True)
    yield paragraph(
        f"This square is {one.words} wide and {one.words} high, the other one {other.words}, from the middle of a line to the "
        "middle of the line opposite.",
        _READ,
    )
    yield paragraph(f"Measure both ways, with a ruler that you trust. If both are right, {then}.", _READ)
    if matter.drawing.unit == "in":
        yield paragraph(
            "1/64 in off on 4 in is more than 1/8 in on a yard: long seams would no longer fit.", _READ
        )
    else:
        far = f"{1000.0 * OFF / METRIC:g} mm on a metre"
        yield paragraph(f"{OFF:g} mm off on 100 mm is {far}: long seams would no longer fit.", _READ)
    yield paragraph(
        "If one is wrong, do not cut. Look below for what has happened, and print again at 100 %.", _READ
    )


def readings(matter: Matter, one: Square, other: Square) -> Iterator[Item]:
    """The table of wrong readings of two squares."""
    yield paragraph("If they measure something else", 4.2, bold=True, keep=True)
    shares = (0.2, 0.21, 0.59)
    head = (one.words, other.words, "what has happened")
    yield row(tuple(zip(shares, head, strict=True)), _TABLE, bold=True, before=1.6)
    for reading in wrong_readings(matter.sizes):
        cells = (*(read_words(each.side, reading.share, each.unit) for each in (one, other)), reading.words)
        yield row(tuple(zip(shares, cells, strict=True)), _TABLE, before=0.9)
    yield paragraph(
        "Anything else below 100 %: shrunk to what the printer can print. Print at 100 % or “actual size”, and switch off “fit”, “shrink” "
        "and “scale to paper”. Not the same both ways: the printer draws its paper unevenly; try another.",
        SMALL,
        before=1.8,
    )


def contents(matter: Matter) -> Iterator[Item]:
    """All that is said beside title and squares, the most needed first."""
    about = matter.drawing.about
    if matter.counted:
        yield heading("Pages")
        for words in matter.counted:
            yield paragraph(words, before=0.8)
    yield heading("Before you cut")
    for words in about.cautions or SAFETY:
        yield paragraph(words, indent=4.0, sign="•", before=0.8)
    yield from _pieces(matter)
    yield from _legend(matter.drawing)
    if about.description:
        yield heading("About this pattern")
        for words in _chunks(about.description):
            yield paragraph(words, before=0.8)


def _pieces(matter: Matter) -> Iterator[Item]:
    """Each piece with its cut orders and its pages."""
    rows = matter.drawing.about.cuts or tuple(
        CutRow(name_of(group), group.name) for group in matter.drawing.groups if group.name in matter.found
    )
    if not rows:
        return
    yield heading("Cut list and pages")
    for cut in rows:
        found = matter.found.get(cut.group, "")
        yield paragraph(cut.piece, bold=True, before=1.8, keep=bool(cut.orders or found))
        for k, order in enumerate(cut.orders):
            yield paragraph(order, before=0.2, indent=4.0, keep=k + 1 < len(cut.orders) or bool(found))
        if found:
            yield paragraph(found, SMALL, before=0.2, indent=4.0)


def _legend(drawing: Drawing) -> Iterator[Item]:
    """What lines mean, from the drawing's own legend, set smaller; samples keep the look of their lines."""
    group = next((g for g in drawing.groups if g.facts.get("kind") == "legend"), None)
    if group is None or not group.texts:
        return
    yield heading("Lines")
    rows: list[list[Stroke]] = [[] for _ in group.texts]
    for stroke in group.strokes:
        apart = [abs(_middle([stroke]).imag - text.at.imag) for text in group.texts]
        rows[apart.index(min(apart))].append(stroke)
    for text, sample in zip(group.texts, rows, strict=True):
        yield _legend_row(text.words, sample)


def _legend_row(words: str, sample: Sequence[Stroke]) -> Item:
    def item(wide: float) -> Block:
        lines = wrapped(words, BODY, wide - _SAMPLE - 3)
        tall = max(_ROW, LEADING * BODY * len(lines))

        def draw(pen: Pen, corner: complex) -> None:
            middle = corner - 0.5j * _ROW
            if sample:
                pen.strokes += _laid(sample, middle + _SAMPLE / 2)
            for k, line in enumerate(lines):
                pen.words(middle + _SAMPLE + 3 - 1j * BODY * (0.36 + LEADING * k), line, BODY)

        return Block(tall, draw)

    return item


def _laid(sample: Sequence[Stroke], middle: complex) -> Iterator[Stroke]:
    """A sample of lines about a point, as long as there is room: its dashes stay as they are."""
    was = _middle(sample)
    z = np.concatenate([stroke.cubics for stroke in sample]) - was
    wide, tall = float(abs(z.real).max()) * 2, float(abs(z.imag).max()) * 2
    share = min(1.0, _SAMPLE / max(wide, 1e-9), 0.75 * _ROW / max(tall, 1e-9))
    return (replace(stroke, cubics=middle + share * (stroke.cubics - was)) for stroke in sample)


def _middle(strokes: Sequence[Stroke]) -> complex:
    """The middle (mm) of the box about lines."""
    low, high = bounds(np.concatenate([stroke.cubics for stroke in strokes]))
    return (low + high) / 2


def _chunks(words: str) -> Iterator[str]:
    """A long text as parts that each find room in a column."""
    for line in words.splitlines():
        part = ""
        for word in line.split():
            if part and len(part) + len(word) >= _CHUNK:
                yield part
                part = ""
            part = f"{part} {word}" if part else word
        if part:
            yield part
