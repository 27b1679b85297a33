"""What everything on a piece needs: its names, its places, its nodes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from notchwork.model import Node, Place
from notchwork.recognise.shape import Contour, Shape
from notchwork.recognise.words.ids import unique
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.signs import Signs
from notchwork.recognise.words.sized import Shifts, sized

Word = TypeVar("Word", bound=str)


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """One piece as it is drawn: its shapes and what was made out on them, by size; ``base`` is the size that is drafted."""

    ident: str
    shapes: Mapping[str | None, Shape]
    rims: Mapping[str | None, Rim]
    signs: Mapping[str | None, Signs]
    edges: tuple[str, ...]
    base: str | None

    @property
    def rim(self) -> Rim:
        return self.rims[self.base]

    @property
    def shape(self) -> Shape:
        return self.shapes[self.base]


class Frame:
    """One piece that is put together: every name in it is unique, every place on its edges can be told."""

    def __init__(self, drawn: Drawn, shifts: Shifts) -> None:
        self.drawn = drawn
        self.shifts = shifts
        self._names: set[str] = set(drawn.edges)
        # Thousands of marks may have one name: none is counted through again.
        self._last: dict[str, int] = {}
        # A place is called by the neighbouring edge; where that lies at both ends, the corner needs a name of its own.
        self._corner_names = (
            tuple(self.name(f"{edge}_start") for edge in drawn.edges) if len(drawn.edges) < 3 else ()
        )

    def name(self, wanted: str) -> str:
        """A name that nothing else on the piece has."""
        name = unique(wanted, self._names, self._last.get(wanted, 2))
        if name != wanted:
            self._last[wanted] = int(name.rpartition("_")[2]) + 1
        self._names.add(name)
        return name

    def nodes(self, outline: Contour) -> tuple[Node, ...]:
        """An outline as nodes."""
        edge_at = {row: k for k, row in enumerate(outline.corners)}
        nodes = []
        for row, cubic in enumerate(outline.cubics):
            at = complex(cubic[0])
            k = edge_at.get(row)
            nodes.append(
                Node(
                    at=at,
                    into=handle(outline.cubics[row - 1, 2], outline.cubics[row - 1, 3]),
                    out=handle(cubic[1], at),
                    edge=self.drawn.edges[k] if k is not None else None,
                    name=self._corner_names[k] if k is not None and self._corner_names else None,
                )
            )
        return tuple(nodes)

    def place(self, edge: int, arcs: Mapping[str | None, float]) -> Place:
        """A place on an edge by its arc positions: from the nearer end in the drafted size."""
        drawn = self.drawn
        length = drawn.rim.length(edge)
        size = drawn.base if drawn.base in arcs else next(iter(arcs))
        if self._corner_names:
            return Place(self._corner_names[edge], offset=sized(arcs))
        if arcs[size] <= length / 2:
            return Place(drawn.edges[edge - 1], offset=sized(arcs))
        from_end = {s: drawn.rims[s].length(edge) - arc for s, arc in arcs.items()}
        return Place(drawn.edges[(edge + 1) % len(drawn.edges)], offset=sized(from_end))


def handle(handle: complex, node: complex) -> complex | None:
    return None if abs(handle - node) < 1e-9 else complex(handle)


def one_of(value: object, allowed: Sequence[Word]) -> Word | None:
    """The value, where it is one of the words of the format."""
    return next((word for word in allowed if word == value), None)
