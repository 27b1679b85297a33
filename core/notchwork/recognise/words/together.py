"""The signs of one piece in all sizes laid on each other: what is one thing in each of them."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Mapping, Sequence
from typing import TypeVar

Thing = TypeVar("Thing")


def matched(
    by_size: Mapping[str | None, Sequence[Thing]],
    base: str | None,
    name: Callable[[Thing], str | None],
    kind: Callable[[Thing], Hashable],
) -> list[dict[str | None, Thing]]:
    """The same things by size: those of one name, else the k-th of a kind where every size has as many of it.

    What is drawn in the base size alone stands alone; so does a kind of which sizes have different numbers.
    """
    keyed = {size: _keyed(things, name, kind) for size, things in by_size.items()}
    counts = {
        size: Counter(key[0] for key in things if not isinstance(key[0], str))
        for size, things in keyed.items()
    }
    order = [key for size in [base, *by_size] for key in keyed.get(size, {})]
    found: list[dict[str | None, Thing]] = []
    for key in dict.fromkeys(order):
        sizes = [size for size, things in keyed.items() if key in things]
        unnamed = not isinstance(key[0], str)
        if unnamed and len({counts[size][key[0]] for size in sizes}) > 1:
            sizes = sizes[:1] if base not in sizes else [base]
        found.append({size: keyed[size][key] for size in sizes})
    return found


def _keyed(
    things: Sequence[Thing], name: Callable[[Thing], str | None], kind: Callable[[Thing], Hashable]
) -> dict[tuple[Hashable, int], Thing]:
    seen: defaultdict[Hashable, int] = defaultdict(int)
    keyed: dict[tuple[Hashable, int], Thing] = {}
    for thing in things:
        given = name(thing)
        key: Hashable = given if given is not None else (kind(thing),)
        keyed[key, seen[key]] = thing
        seen[key] += 1
    return keyed
