"""Things in groups, from pairs that belong together."""

from __future__ import annotations

from collections.abc import Iterable


def groups(count: int, pairs: Iterable[tuple[int, int]]) -> list[list[int]]:
    """The numbers below count in the groups that pairs of them make, each in order and by its least number."""
    parent = list(range(count))

    def root(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    for one, other in pairs:
        a, b = root(one), root(other)
        parent[max(a, b)] = min(a, b)
    found: dict[int, list[int]] = {}
    for k in range(count):
        found.setdefault(root(k), []).append(k)
    return list(found.values())
