"""Every corner as a picture, the worst first; corners that are alike, as of shell and lining, as one."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

import numpy as np

from notchwork.checks import Graded, Names, Verdict
from notchwork.findings import Severity
from notchwork.pictures.corner.card import card
from notchwork.pictures.corner.found import Corner, End, corners
from notchwork.pictures.corner.laid import laid
from notchwork.pictures.corner.words import Words
from notchwork.pictures.picture import Picture
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest
from notchwork.sewing.pieces.lines import Floats
from notchwork.values import frozen


@frozen
class CornerPicture:
    """One corner as sewn.

    ``seam`` and ``end`` say where; ``also`` where else it is the same. At a fold ``seam`` is None. ``pieces`` and ``edges``
    are the ids of what runs on, the first on the left; ``size`` is the one drawn; ``severity`` the worst that is told above
    info; ``findings`` what is told of it.
    """

    seam: str | None
    end: End
    pieces: tuple[str, str]
    edges: tuple[str, str]
    size: str | None
    severity: Severity | None
    findings: Sequence[Graded]
    picture: Picture
    also: Sequence[tuple[str | None, End]] = ()


def corner_pictures(nest: Nest, verdict: Verdict) -> tuple[CornerPicture, ...]:
    """All corners of which the verdict speaks, worst first, then the sound ones."""
    names = Names(nest.pattern)
    groups: dict[Hashable, list[Corner]] = {}
    for corner in corners(nest, verdict):
        groups.setdefault(_like(nest, corner), []).append(corner)
    taken: set[str] = set()
    drawn = []
    for corner, *also in groups.values():
        there = laid(nest, corner)
        if there is not None:
            words = Words(nest, names, corner, there, also)
            drawn.append(_picture(corner, also, card(_key(corner, taken), corner, there, words)))
    return tuple(sorted(drawn, key=lambda found: -(found.severity or 0)))


def _picture(corner: Corner, also: Sequence[Corner], picture: Picture) -> CornerPicture:
    (piece, edge), (other_piece, other_edge) = corner.edges
    return CornerPicture(
        seam=corner.seam,
        end=corner.end,
        pieces=(piece, other_piece),
        edges=(edge, other_edge),
        size=corner.sizes[corner.size],
        severity=corner.severity,
        findings=corner.told,
        picture=picture,
        also=tuple(dict.fromkeys((other.seam, other.end) for other in also)),
    )


def _key(corner: Corner, taken: set[str]) -> str:
    (piece, edge), *_ = corner.edges
    at = corner.seam if corner.seam is not None else f"{piece} {corner.spots[0].line} {edge}"
    base = key = f"corner-{token(at)}-{corner.end}"
    number = 2
    while key in taken:
        key, number = f"{base}-{number}", number + 1
    taken.add(key)
    return key


def _like(nest: Nest, corner: Corner) -> Hashable:
    """What is the same for corners that look the same: the pieces they are like, the place on them, and all figures."""
    spots = frozenset(
        (nest.pieces[spot.piece].root, spot.line, line)
        for spot, (_, line) in zip(corner.spots, corner.edges, strict=True)
    )
    told = tuple(sorted(graded.rule.id for graded in corner.told))
    return corner.end == "fold", spots, told, corner.size, corner.stepped, _figures(corner.off)


def _figures(values: Floats) -> bytes:
    return np.round(values, 2).tobytes()
