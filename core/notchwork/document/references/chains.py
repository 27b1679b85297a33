"""Things that each refer to another of their kind: how far that goes, and where it goes in a circle."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

MOST_LINKS = 50
"""How many things may refer to each other in a row; whatever goes further is a slip, and costs whoever follows it."""
_SHOWN = 8


def chains(
    names: Iterable[str], following: Callable[[str], str | None]
) -> tuple[dict[str, int], list[list[str]]]:
    """The number of things in the chain that begins at each, and the circles, each from its first thing on.

    ``following`` gives the thing that one refers to. What leads into a circle is left out of the numbers.
    """
    order = {name: k for k, name in enumerate(names)}
    links: dict[str, int | None] = {}
    circles: list[list[str]] = []
    for name in order:
        path: dict[str, None] = {}
        current: str | None = name
        while current is not None and current not in links and current not in path:
            path[current] = None
            current = following(current)
        run = links.get(current, 0) if current is not None else 0
        if current in path:
            way = list(path)
            circle = way[way.index(str(current)) :]
            begin = circle.index(min(circle, key=order.__getitem__))
            circles.append(circle[begin:] + circle[:begin])
            run = None
        for passed in reversed(path):
            run = None if run is None else run + 1
            links[passed] = run
    return {name: run for name, run in links.items() if run is not None}, circles


def in_a_row(names: Sequence[str]) -> str:
    """The names with arrows between them, those in the middle of a long row left out."""
    shown = names if len(names) <= _SHOWN else [*names[: _SHOWN - 2], "…", names[-1]]
    return " → ".join(shown)
