"""Run checks over a nest, each guarded, and judge what they found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from notchwork.checks.check import Check
from notchwork.checks.grade import grade
from notchwork.checks.judge import judged, sorted_for_reading
from notchwork.checks.message import hint, message
from notchwork.checks.names import Names
from notchwork.checks.select import named
from notchwork.checks.verdict import Checked, NotRun, Verdict
from notchwork.checks.withheld import judgeable, withheld
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.model import Piece, resolved_pieces

if TYPE_CHECKING:
    from notchwork.sewing import Nest

CRASHED = Rule(
    id="internal/check-crashed",
    title="A check broke down",
    rationale="The check could not finish because of a mistake in the program or in an added plugin, not in the pattern. "
    "What it would have found is unknown; all other checks ran.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)


def run(
    nest: Nest, checks: Sequence[Check], before: Iterable[Finding] = (), every: Sequence[Check] | None = None
) -> Verdict:
    """Run the checks and judge their findings together with those made ``before`` (while reading).

    A check that crashes costs one finding, not the run. ``every`` are all checks there are (those that run, if None): an
    acceptance of one that was left out is not told as matching nothing, and the verdict says that some were left out.
    """
    pattern = nest.pattern
    names = Names(pattern)
    crashes: dict[str, list[str]] = {}
    pieces = resolved_pieces(pattern)
    made = (finding for check in checks for finding in _guarded(check, nest, names, crashes))
    found = [*before, *judgeable(made, pattern, pieces)]
    found += _crashed(crashes)
    graded = judged(found, pattern, checks, checks if every is None else every)
    return Verdict(
        pattern,
        tuple(sorted_for_reading(graded, pattern)),
        nest,
        Checked(
            sizes=pattern.sizes.names if pattern.sizes is not None else (),
            seams=len(pattern.seams),
            checks=tuple(check.id for check in checks),
            not_run=(*_not_run(pieces, checks), *withheld(pieces, checks)),
            only=named(checks, every) if every is not None and len(checks) < len(every) else (),
        ),
    )


def _guarded(check: Check, nest: Nest, names: Names, crashes: dict[str, list[str]]) -> Iterator[Finding]:
    """What one check finds; if it breaks down, that is entered in ``crashes`` by its cause.

    Its findings are put into words once, so that a broken template is charged to its check.
    """
    try:
        for finding in check.find(nest):
            if finding.rule.id != check.id:
                raise ValueError(f"the check {check.id} made a finding of another rule, {finding.rule.id}")
            graded = grade(finding, nest.pattern)
            if graded is not None:
                message(graded, names)
                hint(graded, names)
            yield finding
    except Exception as error:
        crashes.setdefault(f"{type(error).__name__}: {error}", []).append(check.id)


def _crashed(crashes: Mapping[str, Sequence[str]]) -> Iterator[Finding]:
    """One finding for each cause that broke checks down."""
    for error, checks in crashes.items():
        yield Finding(
            CRASHED,
            Place(),
            "The check {check} broke down and was left out ({error})."
            if len(checks) == 1
            else "The checks {check} broke down and were left out ({error}).",
            "This is a mistake in the program or in an added plugin, not in the pattern: please report it with the file.",
            {"check": tuple(checks), "error": error},
        )


def _not_run(pieces: Mapping[str, Piece], checks: Sequence[Check]) -> Iterator[NotRun]:
    need_shapes = tuple(check.id for check in checks if check.needs == "shapes")
    if not need_shapes:
        return
    for ident, piece in pieces.items():
        if piece.outline is None and piece.outlines is None and piece.strip is None:
            yield NotRun(ident, "there is no drawn outline", need_shapes)
