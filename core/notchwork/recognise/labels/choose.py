"""Which hands the pieces have, and so in which direction every labelled seam is walked."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from notchwork.recognise.labels.chains import (
    Hands,
    Joined,
    Outlines,
    Reading,
    join_ends,
    readings,
)
from notchwork.recognise.labels.found import Labelled

MOST_TRIED = 10
"""Up to so many pieces of free hand every choice is tried; of more, one piece after the other is turned."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Hands for the pieces that labels link, and what every label is under them: none where its joints cannot be joined."""

    hands: Hands
    seams: Mapping[str, tuple[Reading, ...]]

    @property
    def unread(self) -> int:
        """How many labels are no seam under these hands, or more than one."""
        return sum(len(found) != 1 for found in self.seams.values())


def best_choices(labels: Sequence[Labelled], outlines: Outlines, as_drawn: Sequence[str]) -> list[Choice]:
    """The choices of hands under which the most labels are seams with every joint joined, for pieces that labels link.

    ``as_drawn`` are pieces of which only copies as drawn are cut.
    """
    pieces = list(dict.fromkeys(piece for label in labels for piece in label.pieces))
    fixed = [piece for piece in pieces if piece in as_drawn] or pieces[:1]
    free = [piece for piece in pieces if piece not in fixed]

    def tried(turned: Hands) -> Choice:
        hands = {piece: turned.get(piece, False) for piece in pieces}
        return Choice(hands, read_all(labels, outlines, hands))

    if len(free) <= MOST_TRIED:
        every = [
            tried(dict(zip(free, turns, strict=True))) for turns in product((False, True), repeat=len(free))
        ]
    else:
        every = list(_climbed(free, tried))
    least = min(choice.unread for choice in every)
    return [choice for choice in every if choice.unread == least]


def _climbed(free: Sequence[str], tried: Callable[[Hands], Choice]) -> Iterator[Choice]:
    """Piece after piece is turned as long as that reads more labels; then every single turn of what was found."""
    best = tried({})
    better = True
    while better:
        better = False
        for piece in free:
            other = tried({**best.hands, piece: not best.hands[piece]})
            if other.unread < best.unread:
                best, better = other, True
    yield best
    for piece in free:
        yield tried({**best.hands, piece: not best.hands[piece]})


def read_all(
    labels: Sequence[Labelled], outlines: Outlines, hands: Hands
) -> Mapping[str, tuple[Reading, ...]]:
    """What every label is under given hands; seams whose joints other seams must join are read once those are."""
    read: dict[str, tuple[Reading, ...]] = {}
    left = sorted(labels, key=lambda label: len(label.edges) > 2)
    while True:
        joined = _joined(read, outlines)
        fresh = {
            label.label: found
            for label in left
            if label.label not in read and (found := tuple(readings(label, outlines, joined, hands)))
        }
        if not fresh:
            break
        # Seams of two edges first: they need no joints, and join those of the others.
        simple = {
            name: found for name, found in fresh.items() if len(found[0].one) == len(found[0].other) == 1
        }
        read |= simple or fresh
    final: dict[str, tuple[Reading, ...]] = {}
    for label in labels:
        others = {name: found for name, found in read.items() if name != label.label}
        final[label.label] = tuple(readings(label, outlines, _joined(others, outlines), hands))
    return final


def _joined(read: Mapping[str, Sequence[Reading]], outlines: Outlines) -> Joined:
    joined = Joined()
    for found in read.values():
        if len(found) == 1:
            join_ends(found[0], outlines, joined)
    return joined


def linked(labels: Sequence[Labelled]) -> Iterator[list[Labelled]]:
    """The labels in groups whose pieces are linked by them."""
    left = list(labels)
    while left:
        group, pieces = [left.pop(0)], set[str]()
        pieces |= set(group[0].pieces)
        grown = True
        while grown:
            more = [label for label in left if pieces & set(label.pieces)]
            grown = bool(more)
            group += more
            left = [label for label in left if label not in more]
            pieces |= {piece for label in more for piece in label.pieces}
        yield sorted(group, key=labels.index)
