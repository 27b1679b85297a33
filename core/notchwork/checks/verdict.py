"""What came of a run: the findings, worst first, and the plain facts of what was looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from notchwork.checks.grade import Graded
from notchwork.findings import Severity
from notchwork.model import Pattern
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.sewing import Nest


@frozen
class NotRun:
    """A piece of which some checks can say nothing, and why. ``checks`` are their ids."""

    piece: str
    why: str
    checks: tuple[str, ...]


@frozen
class Checked:
    """What was looked at: the sizes (empty for one size), how many seams were walked and the ids of the checks that ran.

    ``only``: where checks were left out on request, the families and checks that were not; empty where all ran.
    """

    sizes: tuple[str, ...]
    seams: int
    checks: tuple[str, ...]
    not_run: tuple[NotRun, ...] = ()
    only: tuple[str, ...] = ()


@frozen
class Verdict:
    """The findings of one pattern, worst first and grouped by seam, with what was looked at.

    ``nest`` and ``checked`` are None where the document has faults, so that nothing could be checked; ``pattern`` is then
    an empty one.
    """

    pattern: Pattern
    findings: tuple[Graded, ...]
    nest: Nest | None = None
    checked: Checked | None = None

    def at_least(self, severity: Severity) -> tuple[Graded, ...]:
        """The findings at or above a severity that were not accepted on purpose."""
        return tuple(g for g in self.findings if g.severity >= severity and g.accepted is None)

    @property
    def sews_together(self) -> bool:
        """All checks ran, and there is nothing above info but what was accepted on purpose."""
        return self.complete and not self.at_least(Severity.WARNING)

    @property
    def complete(self) -> bool:
        """It was checked, and no check was left out on request; of what was left out nothing is known."""
        return self.checked is not None and not self.checked.only
