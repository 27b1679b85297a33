"""A finding graded: each size against the tolerance that holds there, and what was accepted on purpose set apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from notchwork.findings import Finding, Place, Row, Rule, Severity, Tolerance
from notchwork.model import Acceptance, Pattern
from notchwork.values import frozen


@frozen
class GradedRow:
    """A size that is wrong, and how badly."""

    row: Row
    severity: Severity


@frozen
class Graded:
    """A finding with its severity: the worst of its rows.

    ``rows`` are the sizes that are wrong, in the pattern's order; ``right`` those that were looked at and are not.
    ``tolerance`` is the one that held; ``base`` the size that is drafted; ``acceptance`` what accepts it on purpose.
    """

    finding: Finding
    severity: Severity
    rows: tuple[GradedRow, ...] = ()
    right: tuple[str, ...] = ()
    tolerance: Tolerance | None = None
    base: str | None = None
    acceptance: Acceptance | None = None

    @property
    def accepted(self) -> str | None:
        """The reason for which it was accepted on purpose."""
        return self.acceptance.reason if self.acceptance is not None else None

    @property
    def rule(self) -> Rule:
        return self.finding.rule

    @property
    def places(self) -> tuple[Place, ...]:
        """The place and the further ones of the same fault."""
        return (self.finding.place, *self.finding.also)

    @property
    def worst(self) -> GradedRow | None:
        """The row that is furthest off among the worst (the size that is drafted, where it is); None without rows."""

        def badness(graded: GradedRow) -> tuple[Severity, float, bool]:
            return graded.severity, round(abs(graded.row.off), 6), graded.row.size == self.base

        return max(self.rows, key=badness, default=None)


def grade(finding: Finding, pattern: Pattern) -> Graded | None:
    """Grade every row by the rule's steps or by those stated on the seam or the pattern; None if every size is right."""
    base = pattern.sizes.base if pattern.sizes is not None else None
    if isinstance(finding.rule.grade, Severity):
        rows = tuple(GradedRow(row, finding.rule.grade) for row in finding.rows)
        return Graded(finding, finding.rule.grade, rows, base=base)
    tolerance = _tolerance(finding, finding.rule.grade, pattern)
    graded = [(row, tolerance.grade(row.off)) for row in finding.rows]
    wrong = tuple(GradedRow(row, severity) for row, severity in graded if severity is not None)
    if not wrong:
        return None
    right = tuple(
        row.size for row, bad in graded if bad is None and row.off == row.off and row.size is not None
    )
    return Graded(finding, max(row.severity for row in wrong), wrong, right, tolerance, base)


def accept(graded: Graded, pattern: Pattern) -> Iterator[Graded]:
    """The finding, or where only some of its sizes are accepted on purpose the accepted part and the rest."""
    matching = [acceptance for acceptance in pattern.accepted if _concerns(acceptance, graded)]
    whole = next((acceptance for acceptance in matching if acceptance.size is None), None)
    if whole is not None:
        yield replace(graded, acceptance=whole)
        return
    rest = graded.rows
    for acceptance in matching:
        taken = tuple(row for row in rest if row.row.size == acceptance.size)
        if taken:
            yield replace(_with_rows(graded, taken), acceptance=acceptance)
            rest = tuple(row for row in rest if row not in taken)
    if rest or not graded.rows:
        yield _with_rows(graded, rest)


def _with_rows(graded: Graded, rows: tuple[GradedRow, ...]) -> Graded:
    worst = max((row.severity for row in rows), default=graded.severity)
    return replace(graded, rows=rows, severity=worst)


def _concerns(acceptance: Acceptance, graded: Graded) -> bool:
    return (
        acceptance.check == graded.rule.id
        and (acceptance.seam is None or acceptance.seam in _stated(graded.places, "seam"))
        and (
            acceptance.piece is None
            or acceptance.piece in graded.finding.pieces
            or acceptance.piece in _stated(graded.places, "piece")
        )
    )


def _stated(places: Iterable[Place], kind: str) -> set[str]:
    return {getattr(place, kind) for place in places}


def _tolerance(finding: Finding, own: Tolerance, pattern: Pattern) -> Tolerance:
    """The steps that hold: the seam's for this rule, the seam's single tolerance, the pattern's, the rule's own."""
    rule = finding.rule
    base = rule.tape if finding.tape and rule.tape is not None else own
    seam = pattern.seams.get(finding.place.seam) if finding.place.seam is not None else None
    if seam is not None and (steps := seam.tolerances.get(rule.id)) is not None:
        return Tolerance(*steps, unit=base.unit)
    stated = pattern.tolerances.get(rule.id)
    usual = Tolerance(*stated, unit=base.unit) if stated is not None else base
    if seam is not None and seam.tolerance is not None and rule.seam_tolerance:
        return usual.scaled_to(seam.tolerance)
    return usual
