"""How pieces, seams, sides and stations are called in what people read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from notchwork.findings import plain_name
from notchwork.model import Pattern, Piece

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest
    from notchwork.sewing.walks.marks import SideWalk
    from notchwork.sewing.walks.spans import Spot
    from notchwork.sewing.walks.stations import Station


def capital(words: str) -> str:
    """The words with a capital letter in front."""
    return words[:1].upper() + words[1:]


def display_names(pieces: Mapping[str, Piece]) -> dict[str, str]:
    """Every piece's own name where it has one that no other bears, else its id in plain words."""
    bearers = Counter(piece.name for piece in pieces.values())
    return {
        ident: piece.name
        if piece.name is not None and bearers[piece.name] == 1
        else capital(plain_name(ident))
        for ident, piece in pieces.items()
    }


def seam_name(pattern: Pattern, ident: str) -> str:
    """The seam's name as its maker wrote it, else its id in words: "side" is "Side seam"."""
    seam = pattern.seams.get(ident)
    if seam is not None and seam.name:
        return seam.name
    words = capital(plain_name(ident))
    return words if "seam" in words.lower().split() else f"{words} seam"


def side_names(one: SideWalk, other: SideWalk) -> tuple[str, str]:
    """What to call two sides of a seam so that a person can tell them apart: by pieces, else by edges, else by hand."""
    for named in (_pieces, _edges, _hands):
        a, b = named(one), named(other)
        if a != b:
            return a, b
    return f"{_edges(one)} (first side)", f"{_edges(other)} (other side)"


def _pieces(side: SideWalk) -> str:
    return _added(stretch.graded.name for stretch in side.stretches)


def _edges(side: SideWalk) -> str:
    return _added(f"{stretch.graded.name} ({plain_name(stretch.line.name)})" for stretch in side.stretches)


def _added(names: Iterable[str]) -> str:
    """Several pieces on one side are one length: "Front + Back"."""
    return " + ".join(dict.fromkeys(names))


def _hands(side: SideWalk) -> str:
    if all(stretch.span.mirrored for stretch in side.stretches):
        return f"{_edges(side)}, mirrored copy"
    return _edges(side)


def station_name(nest: Nest, ident: str, station: Station) -> str:
    """A station as a person would point at it: "the pitch notch", "the shoulder seam", "the hem"."""
    if station.kind in ("start", "end"):
        return _end_name(nest, ident, at_start=station.kind == "start")
    if station.kind == "fold":
        return "the fold"
    if station.kind == "joint":
        return _joint_name(nest, ident, station.meeting[-1][0])
    if station.kind == "meet" and "." not in station.name:
        return _the(seam_name(nest.pattern, station.name.partition("#")[0]))
    return _mark_name(nest, station.piece, station.name) or (
        _mark_name(nest, station.other_piece, station.other_name) or edge_name(_place(station.name))
    )


def _mark_name(nest: Nest, piece: str, stated: str) -> str | None:
    """A notch, node, dart or pleat by its name; None for a corner that is called by the edge beside it."""
    name, graded = _place(stated), nest.pieces.get(piece)
    if graded is None or name in graded.lines or ("." in stated and not stated.startswith(f"{piece}.")):
        return None
    words = plain_name(name)
    is_notch = name in graded.written.notches and "notch" not in words.split()
    return f"the {words} notch" if is_notch else f"the {words}"


def _place(stated: str) -> str:
    """The bare name in an entry such as "piece.place#2"."""
    return stated.partition("#")[0].rpartition(".")[2]


def edge_name(name: str) -> str:
    """An edge inside a sentence: "the hem", but "the back edge" where the bare word would be read as something else."""
    words = plain_name(name)
    return f"the {words} edge" if words.lower() in _ALSO_PLACES else f"the {words}"


_ALSO_PLACES = frozenset(
    [
        "front",
        "back",
        "left",
        "right",
        "top",
        "bottom",
        "upper",
        "lower",
        "side",
        "start",
        "end",
        "center",
        "centre",
        "inside",
        "outside",
        "long",
        "short",
    ]
)


def turned(station: Station) -> Station:
    """The same station as seen from the further side."""
    return replace(
        station,
        one=station.other,
        other=station.one,
        piece=station.other_piece,
        name=station.other_name,
        other_piece=station.piece,
        other_name=station.name,
        meeting=tuple((b, a) for a, b in station.meeting),
    )


def _joint_name(nest: Nest, ident: str, spot: Spot) -> str:
    """A joint is called by the seam that ends there."""
    for other, ends in nest.seam_ends.items():
        if other != ident and spot in ends:
            return _the(seam_name(nest.pattern, other))
    return "the joint"


def _end_name(nest: Nest, ident: str, at_start: bool) -> str:
    """An end of a seam is called by the edge that crosses it there."""
    from notchwork.sewing.ways.meeting import beyond

    if nest.pattern.seams[ident].closed:
        side = nest.sides[ident][0]
        return _joint_name(nest, ident, side.stretches[0].start_spot)
    for side in nest.sides[ident]:
        neighbour = beyond(side.stretches[0 if at_start else -1], at_start)
        if neighbour is not None:
            return edge_name(neighbour[1])
    return "the start" if at_start else "the end"


def _the(name: str) -> str:
    """A seam's name inside a sentence."""
    return f"the {name[:1].lower()}{name[1:]}"
