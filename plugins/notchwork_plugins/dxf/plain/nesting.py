"""Which blocks would never end, and how much each holds once everything in it is placed.

Both are known before anything is placed: a few hundred bytes can ask for any amount.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from notchwork_plugins.dxf.file import Block, Entity

_VERTEX = 8
"""A vertex has about so many tags."""


class Weight(NamedTuple):
    """How many entities, and how many tags they have together."""

    entities: int
    tags: int


class Nesting:
    """The blocks of a file, by their names in upper case."""

    def __init__(self, blocks: Mapping[str, Block]) -> None:
        self._holds = {name: _placed_in(block.entities) & blocks.keys() for name, block in blocks.items()}
        self.endless = frozenset(_knot(self._holds))
        self._weights: dict[str, Weight] = {}
        for name in _from_the_inside(self._holds, self.endless):
            self._weights[name] = self.weight(blocks[name].entities)

    def weight(self, entities: Iterable[Entity]) -> Weight:
        """What some entities make once every block is placed; a block that would never end is not."""
        count = tags = 0
        for entity in entities:
            count += 1
            tags += len(entity.codes) + _VERTEX * len(entity.parts)
            if entity.kind == "INSERT":
                times = math.prod(rows_and_columns(entity))
                held = self._weights.get(block_name(entity), Weight(0, 0))
                count += times * (1 + held.entities)
                tags += times * held.tags
        return Weight(count, tags)

    def all_in(self, name: str) -> set[str]:
        """The block of a name and all blocks in it, however deep."""
        found: set[str] = set()
        left = [name]
        while left:
            one = left.pop()
            if one in self._holds and one not in found:
                found.add(one)
                left += self._holds[one]
        return found


def block_name(insert: Entity) -> str:
    """The name of the block that an INSERT places, in upper case."""
    return insert.text(2).strip().upper()


def rows_and_columns(insert: Entity) -> tuple[int, int]:
    return max(1, insert.flag(71, 1)), max(1, insert.flag(70, 1))


def _placed_in(entities: Iterable[Entity]) -> set[str]:
    return {block_name(entity) for entity in entities if entity.kind == "INSERT"}


def _knot(holds: Mapping[str, set[str]]) -> set[str]:
    """The blocks that hold themselves, and those between two of them: what is left when outermost and innermost are gone."""
    left = set(holds) - set(_from_the_inside(holds, frozenset()))
    held: Counter[str] = Counter(other for name in left for other in holds[name] & left)
    free = [name for name in left if not held[name]]
    while free:
        name = free.pop()
        left.discard(name)
        for other in holds[name] & left:
            held[other] -= 1
            if not held[other]:
                free.append(other)
    return left


def _from_the_inside(holds: Mapping[str, set[str]], but: frozenset[str]) -> list[str]:
    """The blocks in such an order that each comes after all that it holds; those that never can are left out."""
    waits = {name: len(held - but) for name, held in holds.items() if name not in but}
    holders: dict[str, list[str]] = {}
    for name in waits:
        for other in holds[name] - but:
            holders.setdefault(other, []).append(name)
    order = [name for name, count in waits.items() if not count]
    for name in order:
        for holder in holders.get(name, ()):
            waits[holder] -= 1
            if not waits[holder]:
                order.append(holder)
    return order
