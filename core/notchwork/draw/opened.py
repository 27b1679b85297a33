"""Pieces on a fold drawn whole: everything once more on each other side of the folds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from notchwork.draw.stating import copied
from notchwork.drawing import Dot, Stroke
from notchwork.sewing.shapes.unfold import Move

ONCE = frozenset({"grain", "fold", "opened", "match"})
"""What is drawn on one side only, or lies on the folds."""


def images(
    parts: Sequence[Stroke | Dot], moves: Mapping[str | None, Sequence[Move]]
) -> Iterator[Stroke | Dot]:
    """The mirror images of the parts; ``moves`` has those of each size, the unmoved one first."""
    for part in parts:
        if part.meaning in ONCE:
            continue
        size = part.facts.get("size")
        for copy, move in enumerate(moves[str(size) if size is not None else None][1:], start=1):
            facts = copied(part.facts, copy)
            if isinstance(part, Dot):
                yield replace(part, at=complex(move.of(np.array(part.at))), facts=facts)
            else:
                yield replace(part, cubics=move.of(part.cubics), facts=facts)
