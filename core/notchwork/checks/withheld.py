"""What is not judged: measures taken on an outline that is not known to be the stitch line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from notchwork.checks.check import Check
from notchwork.checks.verdict import NotRun
from notchwork.findings import Finding, Tolerance
from notchwork.model import Opening, Pattern, Piece, Seam

WHY: Mapping[str, str] = {
    "cut_line": "the outline is the cut line, and the stitch line is not known",
    "unknown": "nothing says whether the outline is the stitch line or the cut line",
}


def judgeable(found: Iterable[Finding], pattern: Pattern, pieces: Mapping[str, Piece]) -> Iterator[Finding]:
    """The findings without those that rest on a measure of such a piece; what is not measured stands."""
    doubtful = {ident for ident, piece in pieces.items() if piece.outline_is is not None}
    for finding in found:
        measured = isinstance(finding.rule.grade, Tolerance)
        if not measured or not doubtful & set(_pieces(finding, pattern)):
            yield finding


def withheld(pieces: Mapping[str, Piece], checks: Sequence[Check]) -> Iterator[NotRun]:
    """The pieces of which nothing that is measured is judged."""
    measuring = tuple(check.id for check in checks if isinstance(check.rule.grade, Tolerance))
    for ident, piece in pieces.items():
        if piece.outline_is is not None and measuring:
            yield NotRun(ident, WHY[piece.outline_is], measuring)


def _pieces(finding: Finding, pattern: Pattern) -> Iterator[str]:
    yield from finding.pieces
    if finding.place.piece is not None:
        yield finding.place.piece
    seam = pattern.seams.get(finding.place.seam or "")
    opening = pattern.openings.get(finding.place.opening or "")
    yield from _of_seam(seam) if seam is not None else ()
    yield from _of_opening(opening) if opening is not None else ()


def _of_seam(seam: Seam) -> Iterator[str]:
    return (span.piece for side in seam.sides for span in side.spans)


def _of_opening(opening: Opening) -> Iterator[str]:
    return (span.piece for spans in (opening.sections or opening.lips or ()) for span in spans)
