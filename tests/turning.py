"""Spans and sides of a document's seams turned round, one at a time."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from patterns import Document, nest_of

from notchwork.sewing import Nest
from notchwork.sewing.walks.spans import Stretch


@dataclass(frozen=True)
class Turn:
    """One span of a side, or the whole side (``span`` None), to be walked from its other end."""

    seam: str
    side: int
    span: int | None

    def __str__(self) -> str:
        return f"{self.seam}-{self.side}-{'whole' if self.span is None else self.span}"


def turns(document: Document) -> Iterator[Turn]:
    """Every span, and every side of several spans."""
    for ident, seam in document["seams"].items():
        for number, side in enumerate(seam["sides"]):
            count = len(_spans(side))
            yield from (Turn(ident, number, k) for k in range(count))
            if count > 1:
                yield Turn(ident, number, None)


def turned(document: Document, turn: Turn) -> Document:
    """A copy of the document with that turned round."""
    document = deepcopy(document)
    nest = nest_of(document)
    side = document["seams"][turn.seam]["sides"][turn.side]
    spans = _spans(side)
    stretches = nest.sides[turn.seam][turn.side].stretches
    other_way = [_other_way(nest, span, stretches[k]) for k, span in enumerate(spans)]
    if turn.span is None:
        spans[:] = other_way[::-1]
    else:
        spans[turn.span] = other_way[turn.span]
    return document


def _spans(side: Any) -> list[Any]:
    return side["spans"] if isinstance(side, dict) else side


def _other_way(nest: Nest, span: Any, stretch: Stretch) -> Any:
    stated = span if isinstance(span, dict) else {"edge": span}
    if "to" in stated:
        return stated | {"from": stated["to"], "to": stated["from"]}
    return stated | {"from": _end_of(nest, stretch)}


def _end_of(nest: Nest, stretch: Stretch) -> str:
    """The name of the end at which a whole line is left."""
    line = stretch.line
    written = stretch.graded.written.inner.get(line.name)
    if written is not None and written.line is not None:
        return str(written.line[-1 if stretch.forward else 0].name)
    if written is not None and written.parallel_to is not None:
        line = nest.line(stretch.graded.id, written.parallel_to)
    return line.after if stretch.forward else line.before
