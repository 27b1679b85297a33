"""References inside a piece: places on its edges, what its finishes, darts and pleats name, and its materials."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from notchwork.document.faults import (
    BADLY_STATED,
    CIRCLE,
    OUT_OF_RANGE,
    fault,
)
from notchwork.document.pointers import parts_of, pointer
from notchwork.document.references.chains import MOST_LINKS, chains, in_a_row
from notchwork.document.references.known import Known
from notchwork.document.references.names import Names
from notchwork.document.references.shapes import shape_faults
from notchwork.document.spoken import spoken
from notchwork.findings import Finding
from notchwork.model import Piece, Place

_NAMED = ("edges", "notches", "darts", "pleats", "inner", "marks", "cutouts")


def piece_faults(known: Known) -> Iterator[Finding]:
    """Every fault inside the pieces; one that is taken over by ``like`` is told where it is stated."""
    for ident, stated in known.pattern.pieces.items():
        if stated.like is None:
            yield from _nothing_to_remove(ident, stated)
    likes = known.pattern.pieces
    for ident in sorted(known.pieces, key=lambda ident: likes[ident].like is not None):
        for finding in _of_piece(known, ident, known.pieces[ident]):
            yield _said_of(ident, finding)


def _of_piece(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    names = known.names[ident]
    yield from shape_faults(known, ident, piece)
    yield from _edges(known, ident, piece, names)
    yield from _notches(known, ident, piece, names)
    yield from _intakes(known, ident, piece, names)
    yield from _cut(known, ident, piece)
    for name, inner in piece.inner.items():
        if inner is not None:
            at = known.where.in_piece(ident, "inner", name)
            yield from _edge(known, names, f"{at}/parallel_to", inner.parallel_to)
    yield from _edge(known, names, known.where.key_of(ident, "bias_to"), piece.bias_to)


def _said_of(ident: str, finding: Finding) -> Finding:
    """The finding; where it lies in what the piece takes over from another that is sound, in whose piece it is a fault."""
    stated = parts_of(finding.place.pointer or "")[:2]
    if len(stated) < 2 or stated[1] == ident or "where" not in finding.values:
        return finding
    owner = spoken(pointer(*stated))
    where = str(finding.values["where"]).removeprefix(owner)
    return replace(finding, values={**finding.values, "where": f"Piece {ident} (like {stated[1]}){where}"})


def _nothing_to_remove(ident: str, stated: Piece) -> Iterator[Finding]:
    entries = [(key, name) for key in _NAMED for name, entry in getattr(stated, key).items() if entry is None]
    for at in (*((key,) for key in sorted(stated.removed)), *entries):
        yield fault(
            BADLY_STATED,
            pointer("pieces", ident, *at),
            "null takes a thing away from the piece that this one is like, but it is like none.",
            'Leave the key away, or state "like".',
        )


def _edges(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    """Properties of edges that are there, and what their finishes name."""
    for name, edge in piece.edges.items():
        at = known.where.in_piece(ident, "edges", name)
        if edge is None:
            continue
        if name not in names.lines:
            yield known.broken(at, "edge of this piece", name, names.edges)
        if edge.finish is not None:
            with_ = edge.finish.with_
            if with_ is not None and not known.has("pieces", with_) and not known.has("notions", with_):
                pieces = sorted(known.doubt.known["pieces"] | known.doubt.known["notions"])
                yield known.broken(f"{at}/finish/with", "piece or notion", with_, pieces)
            yield from _caught(known, f"{at}/finish/caught_in", edge.finish.caught_in)


def _caught(known: Known, at: str, place: str | None) -> Iterator[Finding]:
    if place is None:
        return
    ident, dot, name = place.partition("#")[0].partition(".")
    if not dot:
        yield from known.refers(at, "seams", "seam", ident)
    elif not known.has("pieces", ident):
        yield from known.refers(at, "pieces", "piece", ident)
    elif (names := known.names.get(ident)) is not None:
        there = {*names.lines, *names.notches, *names.intakes, *names.vague}
        there |= {node for line in names.lines.values() for node in line.nodes}
        if name not in there:
            yield known.broken(at, f"place of piece {ident}", name, sorted(there))


def _edge(known: Known, names: Names, at: str, name: str | None) -> Iterator[Finding]:
    if name is not None and name not in names.edges and name not in names.vague:
        yield known.broken(at, "edge of this piece", name, names.edges)


def _notches(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    for name, notch in piece.notches.items():
        if notch is None:
            continue
        at = known.where.in_piece(ident, "notches", name)
        line = names.lines.get(notch.edge)
        if line is not None:
            yield from known.place(f"{at}/at", line, notch.at)
        elif notch.edge not in names.vague:
            yield known.broken(f"{at}/edge", "edge or inner line of this piece", notch.edge, names.lines)
    yield from _placed_by_each_other(known, ident, piece, names)


def _placed_by_each_other(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    """Notches that are placed by other notches, which must come to an end."""

    def before(name: str) -> str | None:
        notch = piece.notches.get(name)
        other = notch.at.name if notch is not None else None
        return other if other in names.notches and other not in names.lines else None

    links, circles = chains(names.notches, before)
    for circle in circles:
        yield fault(
            CIRCLE,
            f"{known.where.in_piece(ident, 'notches', circle[0])}/at",
            "notches are placed by each other in a circle: {chain}.",
            "Place one of them by a corner.",
            chain=in_a_row([*circle, circle[0]]),
        )
    for name in (name for name, run in links.items() if run == MOST_LINKS + 1):
        yield fault(
            OUT_OF_RANGE,
            f"{known.where.in_piece(ident, 'notches', name)}/at",
            "notches are placed by each other {most} times in a row and more.",
            "Place it by a corner.",
            most=MOST_LINKS,
        )


def _intakes(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    """Darts and pleats: their edges, feet and folds, and where they are laid."""
    stated: list[tuple[str, str, str | None, tuple[Place, ...], str, str | None]] = []
    for name, dart in piece.darts.items():
        if dart is not None:
            at = known.where.in_piece(ident, "darts", name)
            stated.append((at, "feet", dart.edge, dart.feet or (), "press", dart.press))
    for name, pleat in piece.pleats.items():
        if pleat is not None:
            at = known.where.in_piece(ident, "pleats", name)
            stated.append((at, "folds", pleat.edge, pleat.folds, "to", pleat.to))
    for at, key, edge, places, to_key, to in stated:
        line = names.lines.get(edge) if edge is not None else None
        yield from _edge(known, names, f"{at}/edge", edge if line is None or line.kind != "edge" else None)
        if line is not None:
            for index, place in enumerate(places):
                yield from known.place(f"{at}/{key}/{index}", line, place)
            if len(places) == 2 and places[0] == places[1]:
                yield fault(
                    BADLY_STATED,
                    f"{at}/{key}",
                    "both ends are the same place, so no cloth is taken away.",
                    "Name two different places.",
                )
        yield from _edge(known, names, f"{at}/{to_key}", to)


def _cut(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    at = known.where.key_of(ident, "cut")
    for index, cut in enumerate(piece.cut or ()):
        yield from known.refers(f"{at}/{index}/material", "materials", "material", cut.material)
        for ply, material in enumerate(cut.plies or ()):
            yield from known.refers(f"{at}/{index}/plies/{ply}", "materials", "material", material)
