"""From a drawing to a pattern, with every inference as a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from notchwork.drawing import Drawing
from notchwork.findings import Finding, Place, plain_name
from notchwork.model import Pattern
from notchwork.recognise.find import find_shapes
from notchwork.recognise.labels import seams_of
from notchwork.recognise.options import Options
from notchwork.recognise.own import Stated, stated_in, with_nodes, with_own_words, without_signs
from notchwork.recognise.shape import Aside
from notchwork.recognise.words import read_words
from notchwork.recognise.words.rules import COPIES_ONLY, DOCUMENT_GONE, NO_PIECE


@dataclass(frozen=True, slots=True)
class Recognised:
    """A pattern that was made out of a drawing, what was set aside, and what is to be said of both."""

    pattern: Pattern
    findings: tuple[Finding, ...] = ()
    aside: tuple[Aside, ...] = ()


def recognise(drawing: Drawing, options: Options | None = None) -> Recognised:
    """Make out the pieces of a drawing: shapes first, then what is written on them, then the seams that labels state.

    What a drawing of this program's own says by meanings and facts is taken at its word: outlines come back within
    0.001 mm. Everything else is inferred, and every inference is told. Raises TooMuchDrawn for more than any pattern has.
    """
    bare = without_signs(drawing)
    seen = find_shapes(bare, options)
    strokes = [stroke for group in bare.groups for stroke in group.strokes]
    read = read_words(seen, strokes)
    # A document that came along states everything itself.
    stated = stated_in(drawing, read.idents, seen.scale) if drawing.attached is None else Stated()
    named, moved = with_nodes(read.pattern.pieces, stated.lines)
    pieces = {ident: replace(one, piece=named[ident]) for ident, one in read.pieces.items()}
    pattern = replace(read.pattern, pieces=named, unit=drawing.unit)
    seams, told = seams_of(pattern, pieces)
    pattern, lost = with_own_words(pattern, stated)
    pattern = replace(pattern, seams={**pattern.seams, **seams})
    told += [*moved, *lost, *(_copies_only(drawing, pattern) if drawing.attached is None else ())]
    nothing: tuple[Finding, ...] = () if pattern.pieces else (_no_piece(),)
    if drawing.attached is None and not seams and any("piece" in group.facts for group in drawing.groups):
        nothing = (*nothing, _document_gone(bool(stated)))
    of_shapes = (_called(finding, read.idents, pattern) for finding in seen.findings)
    return Recognised(pattern, (*nothing, *of_shapes, *read.findings, *told), seen.aside)


def _called(finding: Finding, idents: Mapping[str, str], pattern: Pattern) -> Finding:
    """What was told of a shape, by the name that its piece was given since."""

    def name(ident: object) -> object:
        if not isinstance(ident, str) or ident not in idents:
            return ident
        return pattern.pieces[idents[ident]].name or plain_name(idents[ident])

    place = finding.place
    return replace(
        finding,
        place=replace(place, piece=idents.get(place.piece, place.piece))
        if place.piece is not None
        else place,
        values={
            key: tuple(name(entry) for entry in value) if isinstance(value, tuple) else name(value)
            for key, value in finding.values.items()
        },
        pieces=tuple(idents.get(ident, ident) for ident in finding.pieces),
    )


def _copies_only(drawing: Drawing, pattern: Pattern) -> Iterator[Finding]:
    """Pieces of which the drawing has copies alone."""
    copied = {str(g.facts["piece"]): g for g in drawing.groups if "copy" in g.facts and "piece" in g.facts}
    for ident, group in copied.items():
        if ident not in pattern.pieces:
            yield Finding(
                COPIES_ONLY,
                Place(),
                "Of {piece} only mirrored or further copies are drawn, so it is left out.",
                "Draw each piece once, without --copies.",
                {"piece": str(group.facts.get("name", ident))},
            )


def _document_gone(states: bool) -> Finding:
    """``states``: letters and lines still said what seams, openings and edges are."""
    return Finding(
        DOCUMENT_GONE,
        Place(),
        "This drawing was made from a pattern, and the document with its notions, body measures, tolerances, order of sewing and "
        "notes is gone. Seams, openings, finishes and materials are taken from what its letters, edges and cut orders state."
        if states
        else "This drawing was made from a pattern, and the document with its seams, joins, openings, notions and finishes is gone.",
        "Read the file as it was written, or the pattern in the open format; what is drawn is read all the same.",
    )


def _no_piece() -> Finding:
    return Finding(
        NO_PIECE,
        Place(),
        "Nothing in this drawing is taken for a piece.",
        "Draw the outline of each piece as a closed line; --verbose shows what was set aside.",
    )
