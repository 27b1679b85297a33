"""What is compared two by two, gathered by the one that is unlike the others: one fault, however many it is compared with."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import TypeVar

Pair = TypeVar("Pair")


def by_the_odd_one(
    pairs: Sequence[Pair], odd: Callable[[Pair], Hashable], turned: Callable[[Pair], Pair]
) -> Iterator[list[Pair]]:
    """Pairs that share one of their two, the one in most pairs first; in every group each pair has that one in front.

    ``odd`` is what tells the one in front, with its figures and those it is compared with; ``turned`` gives the same pair
    with the other one in front.
    """
    left = [(pair, turned(pair)) for pair in pairs]
    while left:
        counts = Counter(odd(way) for ways in left for way in ways)
        most = max(counts.values())
        first = next(key for key, count in counts.items() if count == most)
        yield [next(way for way in ways if odd(way) == first) for ways in left if first in map(odd, ways)]
        left = [ways for ways in left if first not in map(odd, ways)]
