"""What a drawing states is judged as in any document, and taken as far as it fits the pieces that are drawn."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from notchwork.document import read_pattern
from notchwork.document.codec import document_of
from notchwork.document.pointers import parts_of
from notchwork.findings import Finding, Severity
from notchwork.model import Edge, Pattern, Piece
from notchwork.recognise.own.stated import Stated
from notchwork.recognise.own.tell import material_lost, no_longer_fits, opening_lost, seam_lost

WORDS = {
    "trim_to": "width to trim to",
    "trim_when": "time of trimming",
    "finish": "finish",
    "cut_corner": "corner of the cut line",
}
"""The keys that an edge may state beside what is drawn, in words; and any that starts with "x-"."""

Name = tuple[str, ...]
"""One statement: ("seams", seam), ("openings", opening), ("materials", material), or ("edges", piece, edge, key)."""


def with_own_words(pattern: Pattern, stated: Stated) -> tuple[Pattern, list[Finding]]:
    """The pattern with the seams, openings, materials and words of edges that a drawing states, each judged as in any document.

    What does not fit the pieces is left out and told; what was read from words on the drawing goes before.
    """
    left: dict[Name, Any] = dict(_statements(pattern, stated))
    lost = [name for name in _of_edges(stated) if name not in left]
    bare = document_of(replace(pattern, seams={}, openings={}, unit="mm"))
    while left:
        read = read_pattern(json.dumps(_with(bare, left)).encode(), "the drawing")
        faults = [fault for fault in read.faults if fault.rule.grade is Severity.ERROR]
        if read.pattern is not None and not faults:
            pattern = _taken(pattern, read.pattern, left)
            break
        unfit = {name for fault in faults if (name := _named(fault.place.pointer or "")) in left}
        if not unfit:
            # Nothing can be said where the pieces themselves are not what a document may hold.
            unfit = set(left)
        lost += [name for name in left if name in unfit]
        left = {name: said for name, said in left.items() if name not in unfit}
    return pattern, [_told(name) for name in lost]


def _statements(pattern: Pattern, stated: Stated) -> Iterator[tuple[Name, Any]]:
    """Each statement by its name, but for those of edges that are not there or that may not state it."""
    yield from ((("seams", seam), said) for seam, said in stated.seams.items())
    yield from ((("openings", opening), said) for opening, said in stated.openings.items())
    for material, said in stated.materials.items():
        # A material that no order names any more is not the drawing's.
        if material in pattern.materials and isinstance(said, dict):
            yield ("materials", material), said
    edges = {ident: _edges(piece) for ident, piece in pattern.pieces.items()}
    for name, said in _of_edges(stated).items():
        _, piece, edge, key = name
        if edge in edges.get(piece, ()) and (key in WORDS or key.startswith("x-")):
            yield name, said


def _of_edges(stated: Stated) -> dict[Name, Any]:
    return {
        ("edges", piece, edge, key): said
        for (piece, edge), words in stated.edges.items()
        for key, said in words.items()
    }


def _edges(piece: Piece) -> set[str]:
    """The edges of a drawn piece; of a strip those that every strip has."""
    if piece.strip is not None:
        return {"lower", "end", "upper", "start"}
    outlines = (piece.outline or (), *(piece.outlines or {}).values())
    return {node.edge for nodes in outlines for node in nodes if node.edge is not None}


def _with(bare: Mapping[str, Any], left: Mapping[Name, Any]) -> dict[str, Any]:
    """A document with statements put where they belong."""
    document = {**bare, "seams": {}, "openings": {}}
    document |= {key: dict(bare.get(key, {})) for key in ("pieces", "materials")}
    for name, said in left.items():
        if name[0] == "edges":
            _, ident, edge, key = name
            piece = document["pieces"][ident]
            edges = piece.get("edges", {})
            document["pieces"][ident] = {
                **piece,
                "edges": {**edges, edge: {key: said, **edges.get(edge, {})}},
            }
        elif name[0] == "materials":
            document["materials"][name[1]] = {**said, **document["materials"][name[1]]}
        else:
            document[name[0]][name[1]] = said
    return {key: value for key, value in document.items() if value}


def _named(pointer: str) -> Name | None:
    """The statement that a pointer of a fault leads into."""
    match parts_of(pointer):
        case ["seams" | "openings" | "materials" as kind, ident, *_]:
            return kind, ident
        case ["pieces", piece, "edges", edge, key, *_]:
            return "edges", piece, edge, key
    return None


def _taken(pattern: Pattern, read: Pattern, left: Mapping[Name, Any]) -> Pattern:
    """The pattern with what is left, as it was read."""
    pieces = dict(pattern.pieces)
    for ident, edge in {(name[1], name[2]) for name in left if name[0] == "edges"}:
        own, said = pieces[ident].edges.get(edge) or Edge(), read.pieces[ident].edges[edge]
        assert said is not None
        # Lengths that were drawn are not rounded as a document's are.
        worded = replace(said, length=own.length, allowance=own.allowance, fold=own.fold)
        pieces[ident] = replace(pieces[ident], edges={**pieces[ident].edges, edge: worded})
    return replace(pattern, pieces=pieces, seams=read.seams, openings=read.openings, materials=read.materials)


def _told(name: Name) -> Finding:
    if name[0] == "seams":
        return seam_lost(name[1])
    if name[0] == "openings":
        return opening_lost(name[1])
    if name[0] == "materials":
        return material_lost(name[1])
    _, piece, edge, key = name
    return no_longer_fits(piece, edge, WORDS.get(key, key))
