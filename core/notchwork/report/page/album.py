"""Every picture of one verdict, drawn once, for the page and for files by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field

from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.corner import CornerPicture, corner_pictures
from notchwork.pictures.glance import glance_pictures, nest_pictures
from notchwork.pictures.seam import seam_pictures
from notchwork.values import frozen


@frozen
class Album:
    """Pictures: of seams by id, of corners, of the pattern at a glance by size, and of every piece in all sizes."""

    seams: Mapping[str, Picture] = field(default_factory=dict)
    corners: Sequence[CornerPicture] = ()
    glance: Mapping[str | None, Picture] = field(default_factory=dict)
    nests: Sequence[Picture] = ()

    def __iter__(self) -> Iterator[Picture]:
        """All of them, in the order of the page."""
        yield from self.seams.values()
        yield from (corner.picture for corner in self.corners)
        yield from self.glance.values()
        yield from self.nests


def drawn(verdict: Verdict) -> Album:
    """The pictures; none of a document with faults, of which nothing can be drawn."""
    nest = verdict.nest
    if nest is None:
        return Album()
    return Album(
        seam_pictures(nest, verdict),
        corner_pictures(nest, verdict),
        glance_pictures(nest, verdict),
        nest_pictures(nest),
    )
