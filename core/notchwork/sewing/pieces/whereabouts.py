"""Where along an edge a place is, as a person would point at it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from notchwork.findings import Length, plain_name
from notchwork.sewing.pieces.lines import Floats, Line, agree

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


def where_along(
    nest: Nest, line: Line, position: Floats, size: int, key: str
) -> tuple[str, dict[str, object]]:
    """A template with its values for an arc position (mm, sizes): "the zip end", or "12.0 mm past the hem".

    ``key`` is what the names of the values begin with.
    """
    for name, at in _named(nest, line):
        if agree(at, position):
            return f"the {{{key}}}", {key: plain_name(name)}
    if not line.before:
        return f"{{{key}}} along it", {key: Length(float(position[size]))}
    return (
        f"{{{key}}} past the {{{key}_from}}",
        {key: Length(float(position[size])), f"{key}_from": plain_name(line.before)},
    )


def _named(nest: Nest, line: Line) -> Iterator[tuple[str, Floats]]:
    """The corners by the edges that meet there, notches, named nodes and dart feet."""
    if line.before:
        yield line.before, np.zeros_like(line.length)
        yield line.after, line.length
    yield from line.nodes.items()
    for (piece, name), at in nest.notches.items():
        if piece == line.piece and nest.pieces[piece].written.notches[name].edge == line.name:  # type: ignore[union-attr]
            yield name, at
    for intake in line.intakes:
        yield intake.name, intake.low
        yield intake.name, intake.high
