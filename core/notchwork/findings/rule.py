"""What a person may be told: a rule with its reason, its source and how loudly it speaks."""

from __future__ import annotations

import re
from dataclasses import replace
from enum import IntEnum
from typing import Literal

from notchwork.values import frozen

_ID = re.compile(r"[a-z]+(-[a-z]+)*/[a-z0-9]+(-[a-z0-9]+)*")

MeasureUnit = Literal["mm", "deg", "percent", "ratio", "count"]

ROUNDING = 1e-6
"""What arithmetic alone may add to a difference (in the tolerance's unit) before it counts as beyond a step."""


class Severity(IntEnum):
    """How loudly a finding speaks. Info is shown only on request."""

    INFO = 1
    WARNING = 2
    ERROR = 3

    @property
    def word(self) -> str:
        return self.name.lower()


@frozen
class Tolerance:
    """Three steps; what is off by more than a step is that bad. None leaves a step out. ``warning`` is what is fine."""

    info: float | None = None
    warning: float | None = None
    error: float | None = None
    unit: MeasureUnit = "mm"

    def grade(self, off: float) -> Severity | None:
        """How bad it is to be ``off`` by so much, either way; None if within every step, or if ``off`` is NaN.

        Exactly a step is still fine.
        """
        for severity, step in (
            (Severity.ERROR, self.error),
            (Severity.WARNING, self.warning),
            (Severity.INFO, self.info),
        ):
            if step is not None and abs(off) > step + ROUNDING:
                return severity
        return None

    @property
    def fine(self) -> float | None:
        """The most that is accepted without a warning."""
        return next((step for step in (self.warning, self.error, self.info) if step is not None), None)

    def scaled_to(self, warning: float) -> Tolerance:
        """The same steps in proportion, so that the one which speaks as a warning is ``warning``."""
        if not self.fine:
            return replace(self, warning=warning)
        factor = warning / self.fine
        return replace(
            self,
            info=None if self.info is None else self.info * factor,
            warning=None if self.warning is None else self.warning * factor,
            error=None if self.error is None else self.error * factor,
        )


@frozen
class Rule:
    """One thing a person may be told. ``id`` is ``family/flaw``, named for the flaw, and permanent.

    ``rationale`` and ``source`` are prose for ``explain``: why it matters at the cutting table, and where the rule comes
    from ("common practice, no source" where there is none). ``grade`` is a fixed severity, or the steps by which a
    finding's ``off`` is graded; ``tape`` takes their place where a measure was taken by tape. ``measured_in`` is the unit of
    what was measured and expected, where it is not that of ``off`` (a ratio that is off by so many percent).
    ``seam_tolerance``: the
    ``tolerance`` stated on a seam takes the place of the warning step there. ``quiet``: which sound, ordinary work it leaves
    alone; a check is not written without asking that. Raises ValueError for a malformed id.
    """

    id: str
    title: str
    rationale: str
    source: str
    grade: Severity | Tolerance
    tape: Tolerance | None = None
    measured_in: MeasureUnit | None = None
    seam_tolerance: bool = False
    quiet: str = ""

    def __post_init__(self) -> None:
        if not _ID.fullmatch(self.id):
            raise ValueError(
                f"a rule's id is family/flaw in small letters, digits and hyphens, not {self.id!r}"
            )

    @property
    def family(self) -> str:
        return self.id.partition("/")[0]
