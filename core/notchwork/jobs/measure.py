"""What is measured of a pattern without judging it."""

from __future__ import annotations

from notchwork.findings import UnknownName
from notchwork.jobs.load import Loaded
from notchwork.model import Pattern
from notchwork.sewing import Nest, Walk


def describe(what: Loaded | Pattern) -> Nest:
    """The nest: every piece and seam measured in every size. Raises FaultyDocument."""
    return Nest(what if isinstance(what, Pattern) else what.sound())


def walk(nest: Nest, seam: str) -> Walk:
    """One seam walked in every size. Raises UnknownName for a seam that is not there."""
    if seam not in nest.pattern.seams:
        raise UnknownName("seam", seam, nest.pattern.seams)
    return nest.walks[seam]
