"""References of seams: spans, joins, what meets what, and the seams they are sewn over."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.document.faults import (
    AMBIGUOUS,
    BADLY_STATED,
    BROKEN_REFERENCE,
    CONTRADICTION,
    OUT_OF_RANGE,
    fault,
)
from notchwork.document.references.known import Known
from notchwork.document.references.ranges import range_faults
from notchwork.document.references.shapes import only_folds
from notchwork.document.references.sides import Standing, Walked, called
from notchwork.document.references.spans import span_faults
from notchwork.findings import Finding, listed
from notchwork.model import Seam, Side

MOST_WALKED = 5000
"""Spans of one side, each as often as it is walked."""


def seam_faults(known: Known) -> Iterator[Finding]:
    for ident, seam in known.pattern.seams.items():
        at = known.where.seam(ident)
        for number, side in enumerate(seam.sides):
            for index, span in enumerate(side.spans):
                yield from span_faults(known, known.where.span(ident, number, index), span)
        if seam.sides[0].join is not None:
            yield fault(
                BADLY_STATED,
                f"{known.where.side(ident, 0)}/join",
                "side 1 is the finished length and has no join.",
                "State the join on the side that is eased, gathered or stretched onto it, or exchange the sides.",
            )
        if long := [number for number, side in enumerate(seam.sides) if _walked(side) > MOST_WALKED]:
            yield from (_too_long(known, ident, number, seam.sides[number]) for number in long)
            continue
        yield from _on_folds(known, ident, seam)
        yield from _ranges(known, ident, seam)
        walked = [Walked(known, side, seam.closed) for side in seam.sides]
        yield from _between(known, ident, seam, walked)
        yield from _meet(known, ident, seam, walked)
        for index, over in enumerate(seam.over or ()):
            place = f"{at}/over" if len(seam.over or ()) == 1 else f"{at}/over/{index}"
            yield from known.refers(place, "seams", "seam", over)
            if over == ident:
                yield fault(BADLY_STATED, place, "a seam is not sewn over itself.", "Name the earlier seam.")


def _walked(side: Side) -> int:
    return sum(span.times for span in side.spans)


def _too_long(known: Known, ident: str, number: int, side: Side) -> Finding:
    return fault(
        OUT_OF_RANGE,
        known.where.side(ident, number),
        'the side has {count} spans, "times" counted; at most {most} are possible.',
        'Look at "times".',
        count=f"{_walked(side):,}",
        most=f"{MOST_WALKED:,}",
    )


def _on_folds(known: Known, ident: str, seam: Seam) -> Iterator[Finding]:
    """A fold is not cut: only what is folded already can be sewn on, or on to something, along it."""
    if seam.construction in ("lapped", "applied", "basted"):
        return
    for number, side in enumerate(seam.sides):
        for index, span in enumerate(side.spans):
            piece = known.pieces.get(span.piece)
            edge = piece.edges.get(span.line) if piece is not None else None
            if (
                edge is not None
                and edge.fold
                and piece is not None
                and not only_folds(known, span.piece, piece)
            ):
                yield fault(
                    CONTRADICTION,
                    known.where.span(ident, number, index),
                    '"{line}" is a fold, on which the other half of the piece is mirrored: there is no edge to sew.',
                    'Take "fold" away if it is cut and sewn; or draw an inner line if the seam runs beside the fold.',
                    line=f"{span.piece}.{span.line}",
                )


def _ranges(known: Known, ident: str, seam: Seam) -> Iterator[Finding]:
    for number, side in enumerate(seam.sides):
        for key in ("amount", "percent", "ratio") if side.join is not None else ():
            yield from range_faults(
                known, f"{known.where.side(ident, number)}/join/{key}", getattr(side.join, key)
            )


def _between(known: Known, ident: str, seam: Seam, walked: list[Walked]) -> Iterator[Finding]:
    for number, side in enumerate(seam.sides):
        between = (side.join.between if side.join is not None else None) or ()
        if len(between) == 2 and between[0] == between[1]:
            yield fault(
                BADLY_STATED,
                f"{known.where.side(ident, number)}/join/between",
                "both ends are the same place, so nothing lies between them.",
                "Name two different places.",
            )
        for index, name in enumerate(between):
            at = f"{known.where.side(ident, number)}/join/between/{index}"
            yield from _entry(known, at, name, number, walked[number], bare_places=True)


def _meet(known: Known, ident: str, seam: Seam, walked: list[Walked]) -> Iterator[Finding]:
    for row_number, row in enumerate(seam.meet):
        at = f"{known.where.seam(ident)}/meet/{row_number}"
        if len(row) != len(seam.sides):
            yield fault(
                BADLY_STATED,
                at,
                "the row has {entries} entries, but the seam has {sides} sides.",
                "Write one entry for each side in order, null where a side has none.",
                entries=len(row),
                sides=len(seam.sides),
            )
            continue
        for number, name in enumerate(row):
            if name is not None and any(
                number < len(other) and other[number] == name for other in seam.meet[:row_number]
            ):
                yield fault(
                    BADLY_STATED,
                    f"{at}/{number}",
                    '"{name}" stands in two rows, but meets one thing only.',
                    "Put all that meet there into one row, one entry for each side.",
                    name=name,
                )
            elif name is not None:
                yield from _entry(known, f"{at}/{number}", name, number, walked[number], bare_places=False)


def _entry(
    known: Known, at: str, stated: str, number: int, side: Walked, bare_places: bool
) -> Iterator[Finding]:
    """A name on a side: "piece.place", or without a dot a seam (or, with ``bare_places``, a place of any of its pieces).

    A name in a row of meeting places that stands in several places is left to the checks of seams: a span that is walked
    the wrong way does that too, and is then the fault to tell.
    """
    name, _, ordinal = stated.partition("#")
    piece, dot, place = name.partition(".")
    choices = [name]
    if dot:
        if piece not in side.pieces:
            yield from _not_on_side(known, at, piece, number, side)
            return
        standing = side.place(piece, place)
        if known.names.get(piece) is None or place in known.names[piece].vague:
            return
    elif bare_places and (pieces := [p for p in side.pieces if side.place(p, name) != Standing(0)]):
        by_piece = [side.place(p, name) for p in pieces]
        standing = Standing(sum(s.times for s in by_piece), any(s.perhaps for s in by_piece))
        choices = [f"{p}.{name}" for p in pieces]
    elif name in known.pattern.seams:
        standing = side.seam(known.pattern.seams[name])
    elif known.has("seams", name):
        return
    else:
        standing = Standing(0, any(name in known.names[p].vague for p in side.pieces if p in known.names))
    if ordinal and int(ordinal) > standing.times and not standing.perhaps:
        standing = Standing(0)
    if not standing.times and not standing.perhaps:
        yield _nowhere(known, at, stated, number, side, bare_places)
    elif standing.times > 1 and not ordinal and bare_places:
        if len(choices) == 1:
            choices = [f"{choices[0]}#{k + 1}" for k in range(standing.times)]
        yield fault(
            AMBIGUOUS,
            at,
            '"{name}" stands in several places of side {side}.',
            "Say which, in walking order: {choices}.",
            name=name,
            side=number + 1,
            choices=listed((f'"{choice}"' for choice in choices), "or"),
        )


def _not_on_side(known: Known, at: str, piece: str, number: int, side: Walked) -> Iterator[Finding]:
    if not known.has("pieces", piece):
        yield from known.refers(at, "pieces", "piece", piece)
        return
    yield fault(
        BROKEN_REFERENCE,
        at,
        'piece "{piece}" is not on side {side}.',
        "On this side lie {pieces}.",
        piece=piece,
        side=number + 1,
        pieces=listed(side.pieces),
    )


def _nowhere(known: Known, at: str, stated: str, number: int, side: Walked, bare_places: bool) -> Finding:
    name = stated.partition("#")[0]
    if "." in name:
        piece = name.partition(".")[0]
        lines = [line for line in side.lines if line is not None and line.piece == piece]
        here = [f"{piece}.{place}" for place in called([known.names[piece]], lines)]
    else:
        here = called(known.names.values(), side.lines) if bare_places else []
        here += [other for other, seam in known.pattern.seams.items() if side.seam(seam).times]
    if name in known.pattern.seams and "." not in name:
        return fault(
            BROKEN_REFERENCE,
            at,
            'seam "{name}" does not end on side {side}{again}.',
            "Name a seam that ends there, or a place as piece.place.",
            name=name,
            side=number + 1,
            again=" so often" if "#" in stated else "",
        )
    return known.broken(at, f"place on side {number + 1}", stated, here)
