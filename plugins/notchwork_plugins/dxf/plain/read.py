"""A plain CAD drawing, with lines of any kind and without the convention's layers, read as a drawing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from notchwork.drawing import Drawing
from notchwork.findings import Count, Finding, Length, Notes, Phrase, Place, safe
from notchwork.formats import Read, Source
from notchwork.geometry.affine import scaling
from notchwork_plugins.dxf.attached import MissingPart
from notchwork_plugins.dxf.file import Entity, File, Unreadable
from notchwork_plugins.dxf.plain.attached import attached
from notchwork_plugins.dxf.plain.ink import MOST_CURVES, Drawn, Ink, Mark, TooMany
from notchwork_plugins.dxf.plain.looks import Looks
from notchwork_plugins.dxf.plain.placing import Placing
from notchwork_plugins.dxf.plain.planes import is_tilted
from notchwork_plugins.dxf.plain.polylines import is_spatial
from notchwork_plugins.dxf.plain.rules import (
    ASIDE,
    BROKEN,
    DOCUMENT,
    FITTED,
    FLATTENED,
    HIDDEN,
    OUT_OF_BOUNDS,
    SCALE,
    SCALE_UNCLEAR,
)
from notchwork_plugins.dxf.plain.scale import Scale, scale_of, stated
from notchwork_plugins.dxf.plain.sorts import WORDS, Sorts, is_made_up
from notchwork_plugins.dxf.plain.splines import has_fit_points_alone
from notchwork_plugins.dxf.plain.words import texts
from notchwork_plugins.dxf.said import APPLICATION, Said, said_of

_FILLED = frozenset(("SOLID", "TRACE"))
_MOST_NAMES = 12


def read(file: File, source: Source, options: Mapping[str, str]) -> Read:
    """The drawing and what is to be said of it; the option ``units`` says what one unit is.

    Coordinates are the drawing's own, in mm. Raises NotchworkError.
    """
    scale = scale_of(file, stated(options, source.name))
    notes = Notes()
    looks, sorts, ink = Looks(file), Sorts(), Ink()
    placing = Placing(file, source.name, looks, sorts, notes)
    whole = Said("")
    to_mm = scaling(scale.mm, scale.mm)
    for placed in placing.through():
        entity = placed.entity
        place = to_mm.after(placed.place)
        said = said_of(strings) if (strings := _own(entity)) else None
        if said is not None and (said.title or said.sizes):
            whole = said
        for fact, number in said.beyond if said is not None else ():
            words = "{things}: what is said of it cannot be ({fact} {number}), and was not read."
            hint = "Write the drawing anew from its pattern; what is drawn is read all the same."
            notes.add(BROKEN, words, hint, _thing(entity), {"fact": fact, "number": number})
        group = ink.group(placed.layer, placed.within) if said is None else ink.group_of(said)
        if place.flattens:
            notes.add(OUT_OF_BOUNDS, "Squeezed to nothing: {things}.", "", _thing(entity))
        elif entity.kind in WORDS:
            for text in texts(entity, place):
                ink.write(
                    text if said is None else replace(text, meaning=said.meaning, facts=said.facts), group
                )
        else:
            ink.draw(
                Mark(entity, place, group, looks.look(placed.pen, scale.mm, entity.kind in _FILLED), said)
            )
            _note_space(entity, notes)
    drawn = _drawn(ink, source.name)
    for entity, why in drawn.broken:
        told = "{things}: {why}. It was left out."
        notes.add(BROKEN, told, "Draw it again in the CAD program.", _thing(entity), {"why": why})
    for entity in drawn.lost:
        told = "More than a kilometre away, and left out: {things}."
        notes.add(
            OUT_OF_BOUNDS, told, "Look at its numbers, and at the units of the drawing.", _thing(entity)
        )
    drawing = Drawing(drawn.groups, scale=1.0 if scale.said_by else None, fine=drawn.fine)
    document, damage = _document(file)
    findings = (
        *file.findings,
        _sized(drawing, scale),
        *_hidden(placing),
        *sorts.findings(),
        *_unused(file, placing),
        *notes.findings(),
        *damage,
    )
    drawing = replace(drawing, title=whole.title, sizes=whole.sizes, base=whole.base, attached=document)
    return Read(None, findings, drawing=drawing)


def _drawn(ink: Ink, name: str) -> Drawn:
    """What was gathered. Raises Unreadable where it is more than any pattern has."""
    try:
        return ink.drawn()
    except TooMany as error:
        raise Unreadable(
            name,
            f"The drawing is larger than any pattern: its lines have {error.count:,} stretches from vertex to vertex, and at most "
            f"{MOST_CURVES:,} are read.",
            "Delete its hatching and whatever else is no pattern, or save the layers of the pattern alone; lines that were traced too "
            "finely can be simplified in the CAD program.",
        ) from error


def _own(entity: Entity) -> list[str]:
    return [value for _, value in entity.extended(APPLICATION)] if 1001 in entity.codes else []


def _thing(entity: Entity) -> str:
    return f"{safe(entity.kind)[:30]} (line {entity.line})"


def _note_space(entity: Entity, notes: Notes) -> None:
    if is_spatial(entity) or is_tilted(entity):
        notes.add(
            FLATTENED,
            "Not level, and read as seen from above: {things}.",
            "Draw it flat, and save again.",
            _thing(entity),
        )
    if has_fit_points_alone(entity):
        notes.add(FITTED, "Drawn through the points that it passes: {things}.", "", _thing(entity))


def _sized(drawing: Drawing, scale: Scale) -> Finding:
    """What one unit is, and how large that makes the drawing."""
    box = drawing.bounds
    size = 0j if box is None else box[1] - box[0]
    values: dict[str, object] = {"unit": scale.name, "size": ""}
    if scale.said_by:
        if box is not None:
            over = {"wide": Length(size.real), "tall": Length(size.imag)}
            values["size"] = Phrase("; it is {wide} by {tall}", over)
        by = "as the drawing says" if scale.said_by == "drawing" else "as stated"
        return Finding(SCALE, Place(), f"One unit of the drawing is 1 {{unit}}, {by}{{size}}.", "", values)
    if box is not None:
        figures = {"wide": f"{size.real:.6g}", "tall": f"{size.imag:.6g}"}
        values["size"] = Phrase(": it is {wide} by {tall} of them", figures)
    return Finding(
        SCALE_UNCLEAR,
        Place(),
        "Nothing in the file says what one unit of the drawing is{size}. It was taken as 1 mm.",
        "Measure something whose size you know. If it is not right, say what a unit is: -O units=cm or -O units=in.",
        values,
    )


def _hidden(placing: Placing) -> Iterator[Finding]:
    names = {name: count for name, count in placing.hidden.items() if name}
    if names:
        yield Finding(
            HIDDEN,
            Place(),
            "Left out, because their layers are off or frozen: {layers}.",
            "If one belongs to the pattern, show its layer and save again.",
            {
                "layers": _few(
                    [
                        Phrase("{name} ({count})", {"name": safe(name)[:60], "count": Count(count)})
                        for name, count in names.items()
                    ]
                )
            },
        )
    if placing.hidden[""]:
        yield Finding(
            HIDDEN,
            Place(),
            "Left out, because they are invisible: {count} parts.",
            "If they belong to the pattern, show them and save again.",
            {"count": Count(placing.hidden[""])},
        )


def _unused(file: File, placing: Placing) -> Iterator[Finding]:
    names = [
        safe(block.name)[:60]
        for key, block in file.blocks.items()
        if block.entities and key not in placing.used and not is_made_up(block.name)
    ]
    if names:
        yield Finding(
            ASIDE,
            Place(),
            "Set aside, because they are placed nowhere: the blocks {names}.",
            "If one belongs to the pattern, insert it and save again.",
            {"names": _few(names)},
        )


def _few(names: list[Phrase] | list[str]) -> tuple[object, ...]:
    more = len(names) - _MOST_NAMES
    return (*names[:_MOST_NAMES], f"{more} more") if more > 0 else tuple(names)


def _document(file: File) -> tuple[bytes | None, list[Finding]]:
    try:
        return attached(file), []
    except MissingPart as error:
        return None, [
            Finding(
                DOCUMENT,
                Place(),
                "The document that the drawing carries cannot be read ({why}), so the drawing alone is.",
                "State its seams and notions anew, or go back to a copy that was not damaged.",
                {"why": str(error)},
            )
        ]
