"""What is measured of a pattern without judging it."""

from __future__ import annotations

from notchwork.findings import UnknownName
from notchwork.jobs.load import Loaded
from notchwork.model import Pattern
from notchwork.sewing import Nest, Walk
from notchwork.sewing.names import seam_name


def describe(what: Loaded | Pattern) -> Nest:
    """The nest: every piece and seam measured in every size. Raises FaultyDocument."""
    return Nest(what if isinstance(what, Pattern) else what.sound())


def walk(nest: Nest, seam: str) -> Walk:
    """One seam, by its id or by the name that reports print, walked in every size. Raises UnknownName."""
    seams = nest.pattern.seams
    ids = (
        [seam] if seam in seams else [k for k in seams if seam_name(nest.pattern, k).lower() == seam.lower()]
    )
    if not ids:
        raise UnknownName("seam", seam, seams, (seam_name(nest.pattern, k) for k in seams))
    return nest.walks[ids[0]]
