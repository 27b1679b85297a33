"""What a first page says of the pattern as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.drawing import About, CutRow, Group
from notchwork.model import Pattern
from notchwork.sewing.cautions import CAUTIONS


def about(pattern: Pattern, pieces: Iterable[Group]) -> About:
    """Its maker's words, the cautions, and a row of the cut list for each of the drawn pieces."""
    return About(
        author=pattern.author or "",
        license=pattern.license or "",
        description=pattern.description or "",
        cautions=CAUTIONS,
        cuts=tuple(_row(group) for group in _once(pieces)),
    )


def _once(pieces: Iterable[Group]) -> Iterator[Group]:
    """Each piece once, however many copies of it are drawn."""
    seen: set[object] = set()
    for group in pieces:
        ident = group.facts.get("piece")
        if ident not in seen:
            seen.add(ident)
            yield group


def _row(group: Group) -> CutRow:
    """The orders in the very words that stand on the piece."""
    orders = tuple(text.words for text in group.texts if "quantity" in text.facts)
    return CutRow(str(group.facts.get("name", group.name)), group.name, orders)
