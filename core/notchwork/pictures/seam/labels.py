"""Names and lengths above and below the strips, and numbers instead where a name does not fit over its stretch."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.lettering import fitting
from notchwork.pictures.seam.amounts import bare
from notchwork.pictures.seam.axis import RIGHT
from notchwork.pictures.seam.figures import wide
from notchwork.pictures.seam.names import Part
from notchwork.pictures.seam.pins import Along

NO_SHAPE = ": no shape is known"
APART = 6.0
"""px between one name and the next."""


def labels(
    parts: Sequence[Part], along: Along, unit: Unit, lengths: bool, tail: str = "", end: str = ""
) -> list[str] | None:
    """The names of a side's pieces, each over or under its own stretch (base line at y 0), with their ``lengths``.

    ``tail`` goes on after the name of a single piece, and ``end`` stands at the right. None where a name does not fit.
    """
    if len(parts) == 1:
        return _one_label(parts[0], along, _whole(parts[0], unit, lengths), tail, end)
    marks = []
    for part in parts:
        start, stop = along.at(part.start).real, along.at(part.stop).real
        said = _named(part, unit, lengths)
        if wide(said, "muted") + APART > stop - start:
            said = _named(part, unit, False)
        if wide(said, "muted") + APART > stop - start:
            return None
        marks.append(ink.text((start + stop) / 2.0, 0.0, said, "muted", "mid"))
    return marks


def _one_label(part: Part, along: Along, said: str, tail: str, end: str) -> list[str]:
    """The name of the only piece, from its start as far as there is room."""
    left = along.at(part.start).real
    room = RIGHT - left - (wide(end, "muted") + APART if end else 0.0)
    if wide(said, "muted") > room:
        said = said.replace(NO_SHAPE, "")
    if wide(said + tail, "muted") <= room:
        said += tail
    marks = [ink.text(left, 0.0, fitting(said, room, 11.0), "muted")]
    return [*marks, ink.text(RIGHT, 0.0, end, "muted", "end")] if end else marks


def _named(part: Part, unit: Unit, length: bool) -> str:
    return f"{part.name} {bare(part.length, unit)}" if length else part.name


def _whole(part: Part, unit: Unit, length: bool) -> str:
    return _named(part, unit, length) + (f", by tape{NO_SHAPE}" if part.by_tape else "")


def label_width(parts: Sequence[Part], unit: Unit, lengths: bool) -> float | None:
    """How wide (px) the name of the only piece of a side is; None where there are several."""
    return wide(_whole(parts[0], unit, lengths), "muted") if len(parts) == 1 else None
