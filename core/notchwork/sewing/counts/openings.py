"""Openings laid out: the layers, or the two lips, that close on each other, and what a layer that stops short leaves open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Opening, Span
from notchwork.sewing.pieces.lines import Floats, agree
from notchwork.sewing.walks.spans import Stretch, stretches_of

if TYPE_CHECKING:
    from notchwork.sewing.counts.gaps import Gap
    from notchwork.sewing.nest import Nest

UNLIKE = 3.0
"""mm by which layers of one closure may differ (common practice, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """One layer of a section, or one lip: its stretches, and its sewn length (mm, sizes)."""

    stretches: tuple[Stretch, ...]
    length: Floats


def layers_of(nest: Nest, opening: Opening) -> list[list[Layer]]:
    """What closes on each other, by section: layers that lie on each other; or the two lips."""
    if opening.lips is not None:
        return [[_layer(nest, lip) for lip in opening.lips]]
    return [[_layer(nest, (span,)) for span in section] for section in opening.sections or ()]


def left_by_a_short_layer(nest: Nest, gap: Gap) -> bool:
    """Whether a gap is what a layer of an opening leaves open that stops short of the others: that is the opening's fault."""
    return any(
        _leaves(layer, by, gap)
        for opening in nest.pattern.openings.values()
        if opening.kind != "gap"
        for layers in layers_of(nest, opening)
        for layer, by in _short(layers)
    )


def _short(layers: Sequence[Layer]) -> Iterator[tuple[Layer, Floats]]:
    """The layers that are shorter than the longest, and by how much (mm, sizes)."""
    longest = np.max([layer.length for layer in layers], axis=0) if layers else 0.0
    for layer in layers:
        by = longest - layer.length
        if bool(np.any(np.nan_to_num(by) > UNLIKE)):
            yield layer, by


def _leaves(layer: Layer, by: Floats, gap: Gap) -> bool:
    first, last = layer.stretches[0], layer.stretches[-1]
    return agree(gap.length, by, within=1.0) and any(
        stretch.line is gap.line and (agree(gap.low, at) or agree(gap.high, at))
        for stretch, at in ((first, first.start), (last, last.stop))
    )


def _layer(nest: Nest, spans: Sequence[Span]) -> Layer:
    stretches = tuple(stretch for span in spans for stretch in stretches_of(nest, span))
    return Layer(stretches, np.sum([stretch.length for stretch in stretches], axis=0))
