"""Pieces of a drawing that says what its lines mean: nothing is guessed, the meanings decide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from notchwork.drawing import Drawing, Facts, Group, Meaning, Stroke
from notchwork.findings import Finding
from notchwork.recognise.contours import CORNER, breaks
from notchwork.recognise.moved_in import moved_in
from notchwork.recognise.options import Options
from notchwork.recognise.placed import Line, moved
from notchwork.recognise.rings import Ring, ring
from notchwork.recognise.shape import Complexes, Contour, Inner, InnerKind, LineKind, Shape
from notchwork.recognise.tell import MENDED, mended, outline_open, stitch_from_cut
from notchwork.recognise.widths import widths_between
from notchwork.recognise.words.folds import folds_drawn, folds_said
from notchwork.recognise.words.rim import Rim

FINISHED: frozenset[Meaning | None] = frozenset({"stitch", "fold", "opened"})
FOLDS: frozenset[Meaning | None] = frozenset({"fold", "opened"})
INNER: dict[Meaning | None, InnerKind | None] = {
    "casing": "casing",
    "fold-back": "fold",
    "placement": "placement",
    "topstitch": "topstitch",
    "slash": "slash",
    "inner": None,
}
NAMELESS = ""
"""The name of an edge that the drawing tells apart, and calls nothing."""
STEADY = 0.5
"""mm by which a drawn allowance may vary along one edge."""
STEPS = (0.1, 25.4 / 16.0)
"""mm: widths are multiples of one of these, as rulers are marked. Common practice, no source."""
EXACT = 0.02
"""mm: what lies between a stitch line and a cut line is this near to its width, where both are drawn as chords or fitted."""


def is_meant(group: Group) -> bool:
    """Whether a group says of its lines which is a stitch or cut line."""
    return any(stroke.meaning in ("cut", "stitch") for stroke in group.strokes) and not is_legend(group)


def is_legend(group: Group) -> bool:
    """Whether a group only explains the others: how lines look, and how large the drawing is."""
    meanings = {stroke.meaning for stroke in group.strokes} | {text.meaning for text in group.texts}
    return group.facts.get("kind") == "legend" or (bool(group.strokes) and meanings == {"legend"})


def meant_shapes(drawing: Drawing, options: Options, scale: float) -> tuple[list[Shape], list[Finding]]:
    """One shape for each group with meanings and each size in it, in the group's own coordinates times scale.

    What a person states of outlines holds for those that are no stitch line by their meanings.
    """
    shapes: list[Shape] = []
    findings: list[Finding] = []
    strokes = [stroke for group in drawing.groups for stroke in group.strokes]
    number = 0
    for group in drawing.groups:
        if is_meant(group):
            lines = [
                Line(
                    number + k,
                    stroke.cubics * scale,
                    stroke.closed,
                    stroke,
                    (*group.within, group.name),
                    group.facts,
                )
                for k, stroke in enumerate(group.strokes)
                if len(stroke.cubics) and "copy" not in stroke.facts
            ]
            sizes = _sizes(group, drawing.sizes)
            drafted = drawing.base if drawing.base in sizes else sizes[0]
            said = _folds_said(group, lines, drafted, options, scale, strokes)
            for size in sizes:
                found = _shape(group, lines, size, options, scale, said, findings)
                if found is not None:
                    shapes.append(found)
        number += len(group.strokes)
    return shapes, findings


def _sizes(group: Group, order: Sequence[str]) -> list[str | None]:
    there = {
        str(s.facts["size"]) for s in group.strokes if "size" in s.facts and s.meaning in ("cut", *FINISHED)
    }
    named: list[str | None] = [size for size in order if size in there]
    named += sorted(there.difference(order))
    return named or [None]


@dataclass(frozen=True, eq=False)
class _Outline:
    """An outline with what the meanings of its lines say of each edge. Where they say that it is not known, ``kind`` is None."""

    contour: Contour
    kind: LineKind | None
    edges: tuple[str | None, ...]
    folds: frozenset[int]
    widths: tuple[float | None, ...]
    used: frozenset[int]


def _shape(
    group: Group,
    lines: Sequence[Line],
    size: str | None,
    options: Options,
    scale: float,
    said: frozenset[int],
    findings: list[Finding],
) -> Shape | None:
    ident = str(group.facts.get("piece") or group.name)
    here = _in_size(lines, size)
    outline = _outline(ident, here, options.tolerance, scale, findings)
    if outline is None:
        return None
    others = [line for line in here if line.number not in outline.used]
    cut = [line for line in others if line.stroke.meaning == "cut" and not _is_cutout(line)]
    drawn: Complexes | None = None
    if cut and outline.kind == "stitch":
        drawn = np.concatenate([line.cubics for line in cut])
        others = [line for line in others if line not in cut]
    if outline.kind != "stitch" and options.outline is not None:
        outline, drawn = _as_stated(outline, options, said, ident, findings)
    inner = [line for line in others if line.stroke.meaning in INNER]
    cutouts = [line for line in others if _is_cutout(line)]
    settled = {line.number for line in (*inner, *cutouts)}
    return Shape(
        ident=ident,
        named=True,
        outline=outline.contour,
        kind=outline.kind,
        size=size,
        allowances=_widths(outline, drawn),
        cut=drawn,
        edges=outline.edges,
        folds=outline.folds,
        inner=tuple(
            Inner(line.cubics, line.closed, INNER[line.stroke.meaning], line.stroke.facts) for line in inner
        ),
        cutouts=tuple(Inner(line.cubics, True, None, line.stroke.facts) for line in cutouts),
        strokes=tuple(
            replace(line.stroke, cubics=line.cubics) for line in others if line.number not in settled
        ),
        dots=tuple(replace(dot, at=dot.at * scale) for dot in group.dots if _holds(dot.facts, size)),
        texts=tuple(moved(text, 0j, scale) for text in group.texts if _holds(text.facts, size)),
        look=next((line.look for line in here if line.number in outline.used), None),
        facts=group.facts,
        groups=(*group.within, group.name),
        shift=group.shift * scale,
    )


def _in_size(lines: Sequence[Line], size: str | None) -> list[Line]:
    return [line for line in lines if line.stroke.facts.get("size", size) == size]


def _folds_said(
    group: Group,
    lines: Sequence[Line],
    drafted: str | None,
    options: Options,
    scale: float,
    strokes: Sequence[Stroke],
) -> frozenset[int]:
    """The edges that words or dashes in the drafted size call folds, asked for where a cut line is to be moved in: they hold
    in every size, for words may stand far from the edge of another."""
    if options.outline != "cut" or options.allowance is None:
        return frozenset()
    outline = _outline(group.name, _in_size(lines, drafted), options.tolerance, scale, [])
    if outline is None or outline.kind == "stitch":
        return frozenset()
    rim = Rim(outline.contour)
    texts = [moved(text, 0j, scale) for text in group.texts if _holds(text.facts, drafted)]
    return folds_drawn(rim, folds_said(texts, rim), strokes)


def _holds(facts: Facts, size: str | None) -> bool:
    return facts.get("size", size) == size and "copy" not in facts


def _is_cutout(line: Line) -> bool:
    return line.stroke.meaning == "cut" and line.stroke.facts.get("kind") == "cutout"


def _outline(
    ident: str, lines: Sequence[Line], tol: float, scale: float, findings: list[Finding]
) -> _Outline | None:
    finished = [line for line in lines if line.stroke.meaning in FINISHED]
    cut = [line for line in lines if line.stroke.meaning == "cut" and not _is_cutout(line)]
    kind: LineKind = "stitch" if any(line.stroke.meaning == "stitch" for line in finished) else "cut"
    pool = finished if kind == "stitch" else [*cut, *finished]
    # Lines that name their edge go first: a fold that runs on through a hem belongs to the cut line.
    pool.sort(key=lambda line: "edge" not in line.stroke.facts)
    found = ring(pool, tol)
    if found is None:
        if pool:
            findings.append(outline_open(ident, pool))
        return None
    if found.gap > MENDED:
        findings.append(mended(found.gap_at, found.gap))
    return _of_ring(found, kind, scale)


def _of_ring(found: Ring, kind: LineKind, scale: float) -> _Outline:
    """The ring cut into edges: where its lines name one, and at corners of lines that do not."""
    owner = np.repeat(np.arange(len(found.lines)), np.diff([*found.starts, len(found.cubics)]))
    named = [line.stroke.facts.get("edge") for line in found.lines]
    starts = {
        row
        for k, row in enumerate(found.starts)
        if named[k] is not None and (named[k] == NAMELESS or named[k] != named[k - 1] or len(named) == 1)
    }
    broken = np.flatnonzero(np.abs(breaks(found.cubics)) > CORNER).tolist()
    # A corner is a place of its own only where no name says that the edge goes on.
    starts |= {row for row in broken if named[owner[row]] is None or named[owner[row - 1]] is None}
    corners = sorted(starts) or [0]
    first = corners[0]
    rows = (np.array(corners) - first).tolist()
    lines = [found.lines[owner[row]] for row in corners]
    stated = [line.stroke.facts.get("width") for line in lines]
    doubtful = any(line.stroke.facts.get("kind") == "unknown" for line in found.lines)
    return _Outline(
        Contour(np.roll(found.cubics, -first, axis=0), tuple(rows), np.roll(found.sources, -first)),
        None if doubtful else kind,
        tuple(
            str(edge) if (edge := line.stroke.facts.get("edge", NAMELESS)) != NAMELESS else None
            for line in lines
        ),
        frozenset(k for k, line in enumerate(lines) if line.stroke.meaning in FOLDS),
        tuple(
            0.0 if line.stroke.meaning in FOLDS else None if width is None else float(width) * scale
            for line, width in zip(lines, stated, strict=True)
        ),
        frozenset(line.number for line in found.lines),
    )


def _as_stated(
    outline: _Outline, options: Options, said: frozenset[int], ident: str, findings: list[Finding]
) -> tuple[_Outline, Complexes | None]:
    """An outline that a person says is a stitch line; or a cut line: then it is moved in, and what was drawn comes with it.

    Nothing is sewn at a fold, so it stays where it is.
    """
    if options.outline == "stitch" or options.allowance is None:
        return replace(outline, kind="stitch"), None
    widths = tuple(
        0.0 if k in outline.folds | said else width or options.allowance
        for k, width in enumerate(outline.widths)
    )
    moved = moved_in(outline.contour, widths)
    if moved is None:
        told = stitch_from_cut(complex(outline.contour.cubics[0, 0]))
        findings.append(replace(told, place=replace(told.place, piece=ident), pieces=(ident,)))
        return replace(outline, kind="cut"), None
    return replace(outline, contour=moved, kind="stitch", widths=widths), outline.contour.cubics


def _widths(outline: _Outline, drawn: Complexes | None) -> tuple[float | None, ...]:
    """What the edges state as their allowances, else what is drawn beside them: a round figure where it is one but for the lines
    that stand for curves."""
    if drawn is None or None not in outline.widths:
        return outline.widths
    beside = widths_between(outline.contour, drawn)
    return tuple(
        stated if stated is not None else _round(found.middle) if found.varies <= STEADY else None
        for stated, found in zip(outline.widths, beside, strict=True)
    )


def _round(width: float) -> float:
    near = min((round(width / step) * step for step in STEPS), key=lambda round_one: abs(round_one - width))
    return near if abs(near - width) <= EXACT else width
