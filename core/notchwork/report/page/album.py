"""Every picture of one verdict, drawn once, for the page and for files by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field

from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.glance import glance_pictures, nest_pictures
from notchwork.values import frozen


@frozen
class Album:
    """Pictures: of seams by id; of corners by the id of the seam that ends there; at a glance by size; of nested sizes."""

    seams: Mapping[str, Sequence[Picture]] = field(default_factory=dict)
    corners: Mapping[str, Sequence[Picture]] = field(default_factory=dict)
    glance: Mapping[str | None, Picture] = field(default_factory=dict)
    nests: Sequence[Picture] = ()

    def __iter__(self) -> Iterator[Picture]:
        """All of them, in the order of the page."""
        for cards in (*self.seams.values(), *self.corners.values()):
            yield from cards
        yield from self.glance.values()
        yield from self.nests


def drawn(verdict: Verdict) -> Album:
    """The pictures; none of a document with faults, of which nothing can be drawn."""
    nest = verdict.nest
    if nest is None:
        return Album()
    return Album(glance=glance_pictures(nest, verdict), nests=nest_pictures(nest))
