"""What the verdict says of pieces and no box shows: which finding, on which piece, and by which of its names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from notchwork.checks import Graded, Names, Verdict, sentence
from notchwork.findings import Place, Severity
from notchwork.pictures.glance.off import Off
from notchwork.pictures.lettering import clipped
from notchwork.pictures.told import severity_in


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """A finding at one place of a piece, in one size, with its number (from 1) among all of the verdict.

    ``place`` names at least the piece. ``exact``: its point is that of this size, not of the one that is drafted.
    ``says`` is what is wrong, in this size.
    """

    graded: Graded
    number: int
    piece: str
    place: Place
    exact: bool
    severity: Severity
    says: str


def told_by_piece(
    verdict: Verdict, names: Names, size: str | None, off: Mapping[str, Sequence[Off]]
) -> Mapping[str, Sequence[Told]]:
    """By piece, every finding at warning or above in a size that concerns it, but for what is accepted on purpose or boxed."""
    boxed = {id(part.told) for parts in off.values() for part in parts}
    found: dict[str, list[Told]] = {}
    numbers = {id(graded): number for number, graded in enumerate(verdict.findings, 1)}
    for graded in verdict.at_least(Severity.WARNING):
        if id(graded) not in boxed and severity_in(graded, size) is not None:
            for told in _told(graded, numbers[id(graded)], names, size):
                found.setdefault(told.piece, []).append(told)
    return found


def _told(graded: Graded, number: int, names: Names, size: str | None) -> Iterator[Told]:
    """At every place that names a piece; a piece that is concerned and has none is told by itself."""
    row = next((row for row in graded.rows if row.row.size in (size, None)), None)
    severity = row.severity if row is not None else graded.severity
    head = names.of(graded.finding.place)
    says = clipped(f"{head}: {sentence(graded, names, row)}" if head else sentence(graded, names, row))
    own = row.row.place if row is not None else None
    places = [
        (own or graded.finding.place, own is not None),
        *((place, False) for place in graded.finding.also),
    ]
    stated = [(place.piece, place, exact) for place, exact in places if place.piece is not None]
    bare = dict.fromkeys(p for p in graded.finding.pieces if p not in {piece for piece, *_ in stated})
    for piece, place, exact in (*stated, *((piece, Place(piece=piece), False) for piece in bare)):
        yield Told(graded, number, piece, place, exact, severity, says)
