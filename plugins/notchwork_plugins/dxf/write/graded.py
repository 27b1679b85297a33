"""A group of a drawing with its sizes told apart: which stroke in one size is which in the others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Group, Stroke, Text

Complexes = NDArray[np.complex128]
_Part = TypeVar("_Part", Stroke, Dot, Text)

BY_SIZE = frozenset({"size", "depth", "width", "angle", "quantity"})
"""Facts that are not the same in every size."""
SIGNS = frozenset({"arrow", "cross"})
"""Strokes that only draw a sign: heads of arrows, crosses of marks."""


class Sized:
    """The parts of a group by size.

    ``numbers`` says which of all ``sizes`` the piece is there in (of those, ``only`` some); ``sizes`` are these by name. Every
    other number of a size, here and in what is made of it, is a place in them.
    """

    def __init__(
        self, group: Group, sizes: Sequence[str | None], only: Collection[int] | None = None
    ) -> None:
        self.group = group
        number = {name: k for k, name in enumerate(sizes)}
        held = {
            number[size]
            for stroke in group.strokes
            if stroke.meaning in ("cut", "stitch", "fold") and (size := _size(stroke.facts)) in number
        }
        self.numbers = [k for k in sorted(held) or range(len(sizes)) if only is None or k in only]
        self.sizes = tuple(sizes[k] for k in self.numbers)
        self._by_size: list[list[Stroke]] = [[] for _ in self.sizes]
        for stroke in group.strokes:
            for k in self.holds(stroke.facts):
                self._by_size[k].append(stroke)

    def holds(self, facts: Facts) -> Iterator[int]:
        """The sizes for which something holds; all of them where it says nothing."""
        size = facts.get("size")
        return (k for k, name in enumerate(self.sizes) if size is None or size == name)

    def in_size(self, size: int) -> Sequence[Stroke]:
        """Every stroke of one size, in the drawing's order."""
        return self._by_size[size]

    def nowhere(self, *shape: int) -> Complexes:
        """Places (sizes, ...) that are not known yet."""
        return np.full((len(self.sizes), *shape), complex(np.nan, np.nan))

    def everywhere(self, at: complex) -> Complexes:
        """One place (sizes,) for all sizes."""
        return np.full(len(self.sizes), at, dtype=np.complex128)

    def strokes(self, *meanings: str) -> Iterator[tuple[Facts, Mapping[int, Stroke]]]:
        """Each stroke of some meanings as it is in every size, signs left out."""
        return self._matched(
            stroke
            for stroke in self.group.strokes
            if stroke.meaning in meanings and stroke.facts.get("kind") not in SIGNS
        )

    def dots(self, meaning: str) -> Iterator[tuple[Facts, Mapping[int, Dot]]]:
        """The same of points."""
        return self._matched(dot for dot in self.group.dots if dot.meaning == meaning)

    def _matched(self, parts: Iterable[_Part]) -> Iterator[tuple[Facts, Mapping[int, _Part]]]:
        # The k-th of what is called alike in one size is the k-th in the others.
        found: dict[object, dict[int, _Part]] = {}
        count: defaultdict[object, int] = defaultdict(int)
        first: dict[object, Facts] = {}
        for part in parts:
            called = part.meaning, tuple(sorted((k, v) for k, v in part.facts.items() if k not in BY_SIZE))
            for size in self.holds(part.facts):
                key: object = (called, count[called, size])
                count[called, size] += 1
                found.setdefault(key, {})[size] = part
                first.setdefault(key, part.facts)
        for key, by_size in found.items():
            yield first[key], by_size


def _size(facts: Facts) -> str | None:
    size = facts.get("size")
    return None if size is None else str(size)
