"""Ranges: the least stands before the most, in every size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from notchwork.document.faults import BADLY_STATED, fault
from notchwork.document.references.known import Known
from notchwork.findings import Finding
from notchwork.model import Sized, in_size


def range_faults(known: Known, at: str, value: Sized | tuple[Sized, Sized] | None) -> Iterator[Finding]:
    """A fault if a range stated at a pointer falls in some size."""
    sizes = known.pattern.sizes.names if known.pattern.sizes is not None else (None,)
    if not isinstance(value, tuple):
        return
    least, most = value
    if any(_falls(least, most, size) for size in sizes):
        yield fault(
            BADLY_STATED,
            at,
            "the range begins with more than it ends with.",
            "Write the least first: [least, most].",
        )


def _falls(least: Sized, most: Sized, size: str | None) -> bool:
    """Whether a range falls in one size; one that is not given there is told elsewhere."""
    if any(isinstance(value, Mapping) and size not in value for value in (least, most)):
        return False
    return in_size(least, size) > in_size(most, size)
