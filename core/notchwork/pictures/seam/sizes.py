"""Which sizes get a strip of their own: all of a few; of many those that are off, and one for each run that sews alike."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from notchwork.pictures.laid import Laid
from notchwork.sewing import Nest

FOLDED = 5
"""From so many sizes on, those that sew alike share a strip."""

Layers = Sequence[Laid]
"""Further sides in one size that are drawn together: one, or several that are gathered and pinned alike."""


def strips(nest: Nest, layers: Sequence[Sequence[Laid]]) -> list[tuple[str, Layers]]:
    """The sizes to be drawn, in order, each with the label that stands at its left (none where one size stands for all).

    ``layers`` (sides, sizes) are drawn together.
    """
    known = [of for of in zip(*layers, strict=True) if all(one.known for one in of)]
    if not known:
        return []
    drafted = next((of for of in known if of[0].size == nest.base), known[0])
    if len(nest.sizes) == 1 or known[0][0].order != "right":
        return [("", drafted)]
    if len(nest.sizes) < FOLDED:
        return [(_name(nest, of), of) for of in known]
    found: list[tuple[str, Layers]] = []
    for sews, run in groupby(known, lambda of: all(one.sews for one in of)):
        alike = list(run)
        if not sews:
            found += [(_name(nest, of), of) for of in alike]
        else:
            shown = drafted if drafted in alike else alike[0]
            first, last = _name(nest, alike[0]), _name(nest, alike[-1])
            found.append((first if len(alike) == 1 else f"{first}–{last}", shown))
    return found


def _name(nest: Nest, of: Layers) -> str:
    return str(nest.sizes[of[0].size])


def together(compared: Sequence[Sequence[Laid]]) -> list[list[Sequence[Laid]]]:
    """Further sides (sides, sizes) in groups that are drawn together: those that are gathered, and pinned at the same places."""
    found: list[list[Sequence[Laid]]] = []
    for laid in compared:
        if found and _stacks(laid) and _stacks(found[-1][0]) and _pins(laid) == _pins(found[-1][0]):
            found[-1].append(laid)
        else:
            found.append([laid])
    return found


def _stacks(laid: Sequence[Laid]) -> bool:
    return all(one.drawn_up for one in laid if one.known)


def _pins(laid: Sequence[Laid]) -> list[list[float]]:
    return [[round(bay.one, 3) for bay in one.bays] for one in laid if one.known]
