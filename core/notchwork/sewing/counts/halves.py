"""Halves: how often a seam is sewn, and in which halves of the garment.

A seam is stated once, for one half, and is sewn on its mirror image too, with the opposite hands, unless it is its own
mirror image: unless turning every ``mirrored`` flag gives the same seam, its sides exchanged or read the other way round,
where a strip or a piece cut in one hand only stands for its own mirror image. A side that takes every stretch together with
its mirror image states both halves, in whatever order and direction it is walked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.model import Half, Opening, Seam, Side
from notchwork.sewing.counts.copies import stands_for_its_image
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.spans import Stretch, stretches_of

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class Pass(NamedTuple):
    """One sewing of a seam: the half it is in, and whether it is the ``image`` of what was stated rather than stated."""

    half: Half
    image: bool = False


STATED, IMAGE, AS_WRITTEN = Pass("right"), Pass("left", image=True), Pass("none")


class Sewn(NamedTuple):
    """How a seam is sewn: the passes, each ``times`` over.

    ``halves`` are those in which its hands must agree; a seam that is its own mirror image is sewn once and holds in both.
    """

    passes: tuple[Pass, ...]
    times: int
    own_mirror: bool = False

    @property
    def halves(self) -> tuple[Half, ...]:
        return ("right", "left") if self.own_mirror else tuple(p.half for p in self.passes)


class _Key(NamedTuple):
    """One stretch, comparable. Of a piece that stands for its own image nothing but the piece counts (``line`` is empty)."""

    piece: str
    line: str = ""
    low: int = 0
    high: int = 0
    mirrored: bool = False

    def turned(self) -> _Key:
        return self._replace(mirrored=not self.mirrored) if self.line else self

    def whole(self) -> _Key:
        """The whole line on that copy."""
        return self._replace(low=0, high=0)


_Side = tuple[_Key, ...]


def sewn_seams(nest: Nest) -> Mapping[str, Sewn]:
    """How every seam is sewn.

    Two seams that each take what is the other's mirror image state the two halves outright (a blouse whose left and right
    front differ): each is sewn once as written, as if they said ``"half": "none"``.
    """
    return _how_sewn(
        nest,
        {ident: [side.stretches for side in walked] for ident, walked in nest.sides.items()},
    )


def sewn_as_written(nest: Nest) -> Mapping[str, Sewn]:
    """How every seam is sewn, told before it is known which sides mean other copies: every repeated one is taken to."""
    return _how_sewn(
        nest,
        {
            ident: [
                [
                    stretch
                    for span in (other_copy(side) if repeats_a_side(seam, number) else side).spans
                    for stretch in stretches_of(nest, span)
                ]
                for number, side in enumerate(seam.sides)
            ]
            for ident, seam in nest.pattern.seams.items()
        },
    )


def repeats_a_side(seam: Seam, number: int) -> bool:
    """Whether a side is word for word the one before it, in a seam whose layers do not lie on each other."""
    lying = seam.construction in ("basted", "applied")
    return number > 0 and not lying and seam.sides[number].spans == seam.sides[number - 1].spans


def other_copy(side: Side) -> Side:
    """The side with other copies of its pieces."""
    return replace(side, spans=tuple(replace(span, mirrored=not span.mirrored) for span in side.spans))


def _how_sewn(nest: Nest, laid: Mapping[str, Sequence[Sequence[Stretch]]]) -> Mapping[str, Sewn]:
    sides = {
        ident: [tuple(_key(stretch) for stretch in side) for side in seam_sides]
        for ident, seam_sides in laid.items()
    }
    own = {ident: _own_mirror(seam_sides) for ident, seam_sides in sides.items()}
    outright = _stated_outright(
        {
            ident: seam_sides
            for ident, seam_sides in sides.items()
            if not own[ident] and nest.pattern.seams[ident].half is None
        }
    )
    return {ident: _sewn(seam, own[ident], ident in outright) for ident, seam in nest.pattern.seams.items()}


def sewn_opening(nest: Nest, opening: Opening) -> Sewn:
    """How often an opening stands: as a seam would whose sides are its lips, or its sections and their mirror image."""
    own = False
    if opening.lips is not None:
        lips = ([s for span in lip for s in stretches_of(nest, span)] for lip in opening.lips)
        own = _own_mirror([tuple(map(_key, lip)) for lip in lips])
    elif opening.sections is not None:
        own = all(
            stands_for_its_image(nest.pieces[span.piece]) for section in opening.sections for span in section
        )
    if opening.half is not None:
        return Sewn((Pass(opening.half),), 1)
    return Sewn((STATED,), 1, own_mirror=True) if own else Sewn((STATED, IMAGE), 1)


def _sewn(seam: Seam, own: bool, outright: bool) -> Sewn:
    if seam.half is not None:
        return Sewn((Pass(seam.half),), seam.times)
    if own:
        return Sewn((STATED,), seam.times, own_mirror=True)
    return Sewn((AS_WRITTEN,) if outright else (STATED, IMAGE), seam.times)


def _key(stretch: Stretch) -> _Key:
    if stands_for_its_image(stretch.graded):
        return _Key(stretch.graded.id)
    low, high = sorted((_tenth(stretch.start), _tenth(stretch.stop)))
    return _Key(stretch.graded.id, stretch.line.name, low, high, stretch.span.mirrored)


def _tenth(position: Floats) -> int:
    finite = position[np.isfinite(position)]
    return round(float(finite.mean()) * 10) if len(finite) else 0


def _own_mirror(sides: Sequence[_Side]) -> bool:
    stated = Counter(tuple(sorted(side)) for side in sides)
    return stated == Counter(tuple(sorted(key.turned() for key in side)) for side in sides)


def _stated_outright(sides: Mapping[str, Sequence[_Side]]) -> set[str]:
    """Seams whose every span that has a mirror image has it taken by another such seam."""
    handed = {
        ident: [key for side in seam_sides for key in side if key.line] for ident, seam_sides in sides.items()
    }
    taken: dict[_Key, list[tuple[str, _Key]]] = {}
    for ident, keys in handed.items():
        for key in keys:
            taken.setdefault(key.whole(), []).append((ident, key))
    left = {ident for ident, keys in handed.items() if keys}
    while True:
        alone = {
            ident
            for ident in left
            if not all(
                any(
                    other != ident and other in left and _overlap(key, image)
                    for other, image in taken.get(key.turned().whole(), ())
                )
                for key in handed[ident]
            )
        }
        if not alone:
            return left
        left -= alone


def _overlap(a: _Key, b: _Key) -> bool:
    return min(a.high, b.high) - max(a.low, b.low) > 0
