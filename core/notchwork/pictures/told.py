"""What the verdict says of one seam: the sign it gets, and by which finding an amount is told as off.

What is off is decided by the verdict alone; here it is only found again, by its amount.
"""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.checks import Graded, Verdict
from notchwork.findings import ROUNDING, Severity
from notchwork.findings.rule import MeasureUnit
from notchwork.sewing import Nest
from notchwork.values import frozen


@frozen
class Told:
    """The findings of one seam: ``loud`` above info, ``quiet`` the remarks, ``accepted`` what was accepted on purpose."""

    loud: Sequence[Graded]
    quiet: Sequence[Graded]
    accepted: Sequence[Graded]

    def severity(self, size: str | None) -> Severity | None:
        """The worst that is said of a size (of any, where findings name none); None where nothing is above info."""
        return max((level for graded in self.loud if (level := severity_in(graded, size))), default=None)

    @property
    def worst(self) -> Severity | None:
        """The worst of all sizes."""
        return max((graded.severity for graded in self.loud), default=None)

    def telling(self, amount: float, unit: MeasureUnit, size: str | None) -> Graded | None:
        """The finding above info that tells of an amount in a size."""
        if not amount:
            return None
        for graded in self.loud:
            if graded.tolerance is not None and graded.tolerance.unit == unit:
                for row in graded.rows:
                    alike = abs(abs(row.row.off) - abs(amount)) <= ROUNDING
                    if alike and row.row.size == size and row.severity >= Severity.WARNING:
                        return graded
        return None


def told_of(nest: Nest, verdict: Verdict, seam: str) -> Told:
    """What is said of a seam. Of several seams of which one runs the wrong way, what is said of the first holds for all."""
    fault = nest.wrong_way.get(seam)
    named = {seam, *(fault.among[:1] if fault is not None else ())}
    loud: list[Graded] = []
    quiet: list[Graded] = []
    accepted: list[Graded] = []
    for graded in verdict.findings:
        if any(place.seam in named for place in graded.places) and (
            any(place.seam == seam for place in graded.places) or is_of_the_way(graded)
        ):
            kind = accepted if graded.accepted else loud if graded.severity >= Severity.WARNING else quiet
            kind.append(graded)
    return Told(loud, quiet, accepted)


def severity_in(graded: Graded, size: str | None) -> Severity | None:
    """How loudly a finding speaks of a size, if it is above info; one without rows speaks of all."""
    levels = [row.severity for row in graded.rows if row.row.size in (size, None)]
    if not graded.rows:
        levels = [graded.severity]
    return max((level for level in levels if level >= Severity.WARNING), default=None)


def is_of_the_way(graded: Graded) -> bool:
    """Whether a finding says that a seam runs the wrong way."""
    return graded.rule.id == "seams/wrong-way"


def is_of_the_order(graded: Graded) -> bool:
    """Whether a finding says that stations cross."""
    return graded.rule.id == "seams/stations-cross"
