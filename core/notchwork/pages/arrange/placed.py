"""Where pieces lie on pages."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.values import frozen


@frozen
class Placed:
    """A group that is placed: a point z (mm) of its own coordinates lies at ``turn * z + shift``.

    ``turn`` is of length one. The group's own shift plays no part.
    """

    group: int
    turn: complex
    shift: complex


@frozen
class Island:
    """Pieces in one grid of cells, each cell a page: joined, they hold the pieces whole.

    The origin is the lower left corner of cell (0, 0); cell (column, row) begins at (column · wide, row · tall). ``cells`` are
    those that a piece reaches into, and only they are printed; columns and rows count from 0.
    """

    placed: tuple[Placed, ...]
    columns: int
    rows: int
    cells: frozenset[tuple[int, int]]


class DoesNotFit(ValueError):
    """Pieces fit no page whole at any turn allowed: ``groups`` are their numbers."""

    def __init__(self, groups: Iterable[int]) -> None:
        self.groups = tuple(groups)
        super().__init__(f"pieces that fit no page whole: {', '.join(map(str, self.groups))}")
