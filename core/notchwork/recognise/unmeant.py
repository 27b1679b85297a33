"""Pieces of a drawing that does not say what its lines mean: found by what they enclose and how that lies."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from notchwork.drawing import Drawing, Stroke, Text
from notchwork.findings import Finding
from notchwork.recognise.areas import Area, Key
from notchwork.recognise.aside import Sheet, measured, sort_out
from notchwork.recognise.belongings import Belongings, share_out
from notchwork.recognise.contours import straightened
from notchwork.recognise.enclosed import enclosed
from notchwork.recognise.moved_in import moved_in
from notchwork.recognise.options import Options
from notchwork.recognise.outlined import Outlined, with_stated
from notchwork.recognise.outlines import outlines
from notchwork.recognise.placed import Line, placed
from notchwork.recognise.scale import settle
from notchwork.recognise.shape import Aside, Inner, Shape
from notchwork.recognise.tell import (
    gaps_mended,
    open_outlines,
    steps_straightened,
    stitch_from_cut,
    width_stated,
)
from notchwork.recognise.words.folds import folds_drawn, folds_said
from notchwork.recognise.words.ids import is_made_up
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.size_names import SIZE_NAMES


@dataclass(frozen=True, eq=False)
class Unmeant:
    """The shapes, what was set aside, what was inferred, texts of no piece, and the scale that was settled on."""

    shapes: tuple[Shape, ...]
    aside: tuple[Aside, ...]
    findings: tuple[Finding, ...]
    texts: tuple[Text, ...]
    scale: float


def unmeant_shapes(drawing: Drawing, groups: Collection[int], options: Options) -> Unmeant:
    """The shapes in the groups of a drawing that are named by number."""
    findings: list[Finding] = []
    sheet, scale, told = _scaled(drawing, groups, options)
    findings += told
    # A line that says what it means, in a group of which no line says that it is an outline, encloses nothing.
    meant = [line for line in sheet.lines if line.stroke.meaning is not None]
    sheet.lines = [line for line in sheet.lines if line.stroke.meaning is None]
    gaps = list(sheet.gaps)
    legend, frames = sort_out(sheet)
    found = enclosed(sheet.lines, frames, options.tolerance)
    areas, steps = _straight(found.areas, options.tolerance)
    made = outlines(areas, legend, options.tolerance, bool(sheet.texts or sheet.boxes))
    findings += made.findings
    findings += gaps_mended([*gaps, *found.gaps])
    findings += steps_straightened(steps)
    pieces = with_stated(made.pieces, options.outline, options.allowance)
    pieces.sort(key=lambda piece: min(piece.area.lines))
    shared = share_out(
        [piece.cut or piece.area for piece in pieces],
        [*found.loose, *found.marks, *meant],
        sheet.dots,
        sheet.texts,
    )
    strokes = [stroke for group in drawing.groups for stroke in group.strokes]
    pieces = [_sewn(piece, own, strokes) for piece, own in zip(pieces, shared.each, strict=True)]
    shapes = _shapes(pieces, shared.each)
    for piece, own, shape in zip(pieces, shared.each, shapes, strict=True):
        for finding in (*piece.told, *width_stated(piece.widths, own.texts)):
            place = replace(finding.place, piece=shape.ident)
            findings.append(replace(finding, place=place, pieces=(shape.ident,)))
    findings += open_outlines(found.loose, shared.lines, options.tolerance)
    sheet.set_aside_all("stroke of no piece", shared.lines)
    for area in found.waste:
        sheet.aside.append(Aside("space between pieces", complex(area.polyline[0])))
    return Unmeant(tuple(shapes), tuple(sheet.aside), tuple(findings), shared.texts, scale)


def _scaled(
    drawing: Drawing, groups: Collection[int], options: Options
) -> tuple[Sheet, float, list[Finding]]:
    """The drawing in mm of cloth, without what only tells how large it is."""
    known = options.scale or drawing.scale
    first = known or 1.0
    sheet = Sheet(placed(drawing, groups, first, options.tolerance), options.tolerance)
    gauges = measured(sheet)
    if options.scale is not None:
        return sheet, first, []
    factor, told = settle(1.0 if known is not None else None, gauges)
    if factor == 1.0:
        return sheet, first, told
    sheet = Sheet(placed(drawing, groups, first * factor, options.tolerance), options.tolerance)
    measured(sheet)
    return sheet, first * factor, told


def _straight(areas: Sequence[Area], tol: float) -> tuple[list[Area], list[complex]]:
    """The areas without small steps, and where those were."""
    steps: list[complex] = []
    straight: list[Area] = []
    for area in areas:
        done = straightened(area.cubics, area.sources, tol)
        steps += done.steps
        same = len(done.cubics) == len(area.cubics)
        straight.append(area if same else replace(area, cubics=done.cubics, sources=done.sources))
    return straight, steps


def _sewn(piece: Outlined, own: Belongings, strokes: Sequence[Stroke]) -> Outlined:
    """The piece by its stitch line: of a cut line with all its allowances known, that is the line moved in by them.

    Nothing is sewn at a fold, so it stays where it is. ``strokes`` are those of the whole drawing.
    """
    if piece.kind != "cut" or not piece.widths:
        return piece
    outline = piece.area.contour
    rim = Rim(outline)
    folds = folds_drawn(rim, folds_said(own.texts, rim), strokes)
    piece = replace(piece, widths=tuple(0.0 if k in folds else width for k, width in enumerate(piece.widths)))
    widths = [width for width in piece.widths if width is not None]
    if len(widths) < len(piece.widths):
        return piece
    moved = moved_in(outline, widths)
    if moved is None:
        return replace(piece, told=(*piece.told, stitch_from_cut(piece.area.polyline[0])))
    inner = replace(piece.area, cubics=moved.cubics, sources=moved.sources)
    inner.__dict__["contour"] = moved
    return replace(piece, area=inner, kind="stitch", cut=piece.area)


def _shapes(pieces: Sequence[Outlined], each: Sequence[Belongings]) -> list[Shape]:
    count: Counter[str] = Counter()
    # What lies deeper has names of its own.
    holds = Counter(
        key for piece in pieces for key in {piece.area.within, piece.area.within[:-1] or piece.area.within}
    )
    shapes: list[Shape] = []
    for number, (piece, own) in enumerate(zip(pieces, each, strict=True), 1):
        name = _name(piece.area, holds)
        ident = name or f"piece_{number}"
        count[ident] += 1
        outline = piece.area.contour
        shapes.append(
            Shape(
                ident=ident if count[ident] == 1 else f"{ident}_{count[ident]}",
                named=name is not None,
                outline=outline,
                kind=piece.kind,
                allowances=piece.widths or (None,) * len(outline.corners),
                cut=None if piece.cut is None else piece.cut.cubics,
                edges=(None,) * len(outline.corners),
                inner=(*(Inner(seam) for seam in piece.area.seams), *_strips(piece)),
                strokes=tuple(_stroke(line) for line in own.lines),
                dots=tuple(own.dots),
                texts=tuple(own.texts),
                look=piece.area.look,
                groups=piece.area.within,
            )
        )
    return shapes


def _strips(piece: Outlined) -> Iterator[Inner]:
    """The strips inside a stitch line, as lines on the piece; inside a cut line they became the widths of its turns."""
    if piece.kind == "stitch" and not piece.widths:
        yield from (Inner(strip.cubics, closed=True) for strip in piece.strips)


def _stroke(line: Line) -> Stroke:
    return replace(line.stroke, cubics=line.cubics, closed=line.closed)


def _name(area: Area, holds: Mapping[Key, int]) -> str | None:
    """What the drawing calls a piece: the innermost group that holds it alone, else the path that it is.

    ``holds`` counts the pieces in every group. A name that is there again in other groups tells what lines are, and no piece.
    """
    keys = [area.within[:depth] for depth in range(len(area.within), 0, -1)]
    fitting = [key for key in keys if holds[key] == 1 and not is_made_up(key[-1])]
    if fitting:
        innermost, *outer = fitting
        repeated = any(other[-1] == innermost[-1] and other != innermost for other in holds)
        of_piece = [key for key in outer if key[-1].upper() not in SIZE_NAMES]
        return of_piece[0][-1] if repeated and of_piece else innermost[-1]
    if len(area.names) == 1 and len(area.lines) == 1 and not is_made_up(area.names[0]):
        return area.names[0]
    return None
