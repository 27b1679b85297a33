"""All references of a document, judged."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any

from notchwork.document.references.known import known
from notchwork.document.references.pieces import piece_faults
from notchwork.document.references.seams import seam_faults
from notchwork.document.references.shapes import too_much_drawn
from notchwork.document.references.sizes import size_faults
from notchwork.document.references.things import thing_faults
from notchwork.document.remains import Doubt
from notchwork.findings import Finding
from notchwork.model import Pattern


def reference_faults(pattern: Pattern, document: Mapping[str, Any], doubt: Doubt) -> Iterator[Finding]:
    """Every reference to something that is not there or may be several things, once each.

    ``document`` is what the pattern was read from. Nothing is said of what ``doubt`` holds.
    """
    judged, faults = known(pattern, doubt)
    told = set()
    for finding in chain(
        faults,
        too_much_drawn(judged),
        size_faults(judged, document),
        piece_faults(judged),
        seam_faults(judged),
        thing_faults(judged),
    ):
        place = (finding.rule.id, finding.place.pointer)
        if place not in told:
            told.add(place)
            yield finding
