"""Uses: every stretch of an edge that a seam or an opening takes, once for each half in which it does."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from notchwork.model import Half, Seam
from notchwork.sewing.counts.halves import Sewn, sewn_opening
from notchwork.sewing.pieces.lines import SAME_SPOT, Floats, Line
from notchwork.sewing.walks.spans import Stretch, stretches_of

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Use:
    """From ``low`` to ``high`` (arc positions in mm, sizes) on a line, a seam or opening takes ``count`` copies.

    ``half`` and ``mirrored`` tell the hand; ``image``: the use follows from a seam being sewn on its mirror image too.
    ``half_stated``: the seam or opening says which half it belongs to.
    ``rests``: it does not use the edge up, because it lies over an earlier seam, or is basted.
    """

    kind: Literal["seam", "opening"]
    ident: str
    line: Line
    low: Floats
    high: Floats
    half: Half
    mirrored: bool
    image: bool
    count: int
    rests: bool
    half_stated: bool


def uses_of(nest: Nest) -> Mapping[str, tuple[Use, ...]]:
    """The uses of every piece's edges and cut-outs, by piece. Inner lines have cloth on both sides and are not counted."""
    found: defaultdict[str, list[Use]] = defaultdict(list)
    for use in (*_of_seams(nest), *_of_openings(nest)):
        found[use.line.piece].append(use)
    return {ident: tuple(found[ident]) for ident in nest.pieces}


def _of_seams(nest: Nest) -> Iterator[Use]:
    for ident, sides in nest.sides.items():
        seam, sewn = nest.pattern.seams[ident], nest.sewn[ident]
        for side in sides:
            for stretch in side.stretches:
                rests = seam.construction == "basted" or _over_earlier(nest, seam, stretch)
                yield from _taken(
                    "seam", ident, stretch, sewn, seam.half is not None, side.side.layers, rests
                )


def _of_openings(nest: Nest) -> Iterator[Use]:
    for ident, opening in nest.pattern.openings.items():
        sewn = sewn_opening(nest, opening)
        for group in opening.sections or opening.lips or ():
            for span in group:
                for stretch in stretches_of(nest, span):
                    yield from _taken("opening", ident, stretch, sewn, opening.half is not None, 1, False)


def _taken(
    kind: Literal["seam", "opening"],
    ident: str,
    stretch: Stretch,
    sewn: Sewn,
    stated: bool,
    layers: int,
    rests: bool,
) -> Iterator[Use]:
    if stretch.line.kind == "inner":
        return
    for low, high in _intervals(stretch):
        for half, image in sewn.passes:
            mirrored = stretch.span.mirrored
            yield Use(
                kind,
                ident,
                stretch.line,
                low,
                high,
                half,
                mirrored,
                image,
                sewn.times * layers,
                rests,
                stated,
            )


def _intervals(stretch: Stretch) -> list[tuple[Floats, Floats]]:
    """The arc positions that a stretch runs over; two where it passes the first node of a closed line."""
    low, high = (stretch.start, stretch.stop) if stretch.forward else (stretch.stop, stretch.start)
    if not stretch.line.closed or bool(np.nansum(high - low) > SAME_SPOT):
        return [(low, high)]
    return [(low, stretch.line.length), (np.zeros_like(low), high)]


def _over_earlier(nest: Nest, seam: Seam, stretch: Stretch) -> bool:
    """Whether a seam that this one is sewn over takes some of the same edge."""
    return any(
        other.line is stretch.line
        and bool(
            np.any(
                np.minimum(_high(other), _high(stretch)) - np.maximum(_low(other), _low(stretch)) > SAME_SPOT
            )
        )
        for earlier in seam.over or ()
        for side in nest.sides.get(earlier, ())
        for other in side.stretches
    )


def _low(stretch: Stretch) -> Floats:
    return np.zeros_like(stretch.start) if stretch.line.closed else np.minimum(stretch.start, stretch.stop)


def _high(stretch: Stretch) -> Floats:
    return stretch.line.length if stretch.line.closed else np.maximum(stretch.start, stretch.stop)
