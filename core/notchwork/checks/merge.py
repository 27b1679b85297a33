"""The same fault in a piece and in the pieces that are like it is one finding with several places."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, replace

from notchwork.checks.grade import Graded
from notchwork.findings import Place, Row
from notchwork.model import Pattern, Seam, Span, root_of

_LIKE = 1e-6
"""Figures that differ by no more are the same."""

_IGNORED = ("point", "pointer")


def merged(findings: Iterable[Graded], pattern: Pattern) -> list[Graded]:
    """The findings in their order, later ones of a like piece taken into the first as a further place."""
    kept: list[Graded] = []
    by_key: dict[object, list[int]] = {}
    for graded in findings:
        group = by_key.setdefault(_key(graded, pattern), [])
        for index in group:
            if _takes_in(kept[index], graded):
                kept[index] = _with(kept[index], graded)
                break
        else:
            group.append(len(kept))
            kept.append(graded)
    return kept


def _takes_in(first: Graded, other: Graded) -> bool:
    if other.finding.place in first.places:
        return False
    return all(alike(a.row, b.row) for a, b in zip(first.rows, other.rows, strict=True))


def alike(one: Row, other: Row) -> bool:
    """Whether two rows hold the same figures."""
    return all(
        mine is yours or (mine is not None and yours is not None and abs(mine - yours) <= _LIKE)
        for mine, yours in (
            (one.off, other.off),
            (one.measured, other.measured),
            (one.expected, other.expected),
        )
    )


def _with(first: Graded, other: Graded) -> Graded:
    also = (*first.finding.also, other.finding.place, *other.finding.also)
    pieces = tuple(dict.fromkeys((*first.finding.pieces, *other.finding.pieces)))
    return replace(first, finding=replace(first.finding, also=also, pieces=pieces))


def _key(graded: Graded, pattern: Pattern) -> object:
    finding = graded.finding
    sizes = tuple((row.row.size, row.severity) for row in graded.rows)
    return (finding.rule.id, finding.text, graded.accepted, sizes, _rooted(finding.place, pattern))


def _rooted(place: Place, pattern: Pattern) -> tuple[object, ...]:
    """The place with every piece replaced by the one it is like in the end; a seam becomes what it joins."""
    parts: list[object] = []
    for field in fields(Place):
        value = getattr(place, field.name)
        if place.seam is not None and field.name in ("piece", "line"):
            continue  # where on the seam it shows
        if field.name in _IGNORED or value is None:
            parts.append(None if field.name != "pointer" or _named(place) else value)
        elif field.name == "piece" and value in pattern.pieces:
            parts.append(root_of(pattern, value))
        elif field.name == "seam" and value in pattern.seams:
            parts.append(_joined(pattern.seams[value], pattern))
        else:
            parts.append(value)
    return tuple(parts)


def _named(place: Place) -> bool:
    return any(
        getattr(place, field.name) is not None for field in fields(Place) if field.name not in _IGNORED
    )


def _joined(seam: Seam, pattern: Pattern) -> object:
    """What a seam joins: its spans, or for a seam sewn over another the pieces of both, so that a band's two seams are one."""
    over = [pattern.seams[ident] for ident in seam.over or () if ident in pattern.seams]
    twins = {id(other) for other in over if _pieces(other, pattern) == _pieces(seam, pattern)}
    if twins or any(
        _pieces(other, pattern) == _pieces(seam, pattern)
        for other in pattern.seams.values()
        if any(pattern.seams.get(ident) is seam for ident in other.over or ())
    ):
        return _pieces(seam, pattern)

    def rooted(span: Span) -> object:
        return (
            _root(span.piece, pattern),
            span.line,
            span.start,
            span.stop,
            span.way,
            span.mirrored,
            span.times,
        )

    return tuple(tuple(rooted(span) for span in side.spans) for side in seam.sides)


def _pieces(seam: Seam, pattern: Pattern) -> tuple[frozenset[str], ...]:
    return tuple(frozenset(_root(span.piece, pattern) for span in side.spans) for side in seam.sides)


def _root(piece: str, pattern: Pattern) -> str:
    return root_of(pattern, piece) if piece in pattern.pieces else piece
