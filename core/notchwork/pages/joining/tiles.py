"""Pages to be joined, and pages of whole pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from notchwork.drawing import Group
from notchwork.pages.arrange import Island, Placed, Shape
from notchwork.pages.joining.frame import Cell, Frame, Side, cell_corners
from notchwork.pages.joining.placing import Laid, cells_in_order, reaches
from notchwork.pages.joining.touch import Traces
from notchwork.pages.setting.labels import column_name, name_of
from notchwork.pages.sheet import Window
from notchwork.values import frozen

_STEPS: Mapping[Side, Cell] = {"left": (-1, 0), "right": (1, 0), "below": (0, -1), "above": (0, 1)}


@frozen
class Tile:
    """A page before it is furnished: its label, its windows, and the labels of its printed neighbours by side."""

    label: str
    windows: tuple[Window, ...]
    neighbours: Mapping[Side, str]

    @property
    def groups(self) -> tuple[int, ...]:
        """The groups it shows something of, in order."""
        return tuple(dict.fromkeys(window.group for window in self.windows))


@dataclass(frozen=True, slots=True, eq=False)
class Plot:
    """An island in the plan: where its pieces lie, its cells with their labels, and the step of its grid (mm).

    ``reach`` is how far pages at its rim show more; ``alone``: a page to which nothing is joined.
    """

    placed: tuple[Placed, ...]
    columns: int
    rows: int
    labels: Mapping[Cell, str]
    step: complex
    alone: bool
    reach: float = 0.0

    @property
    def size(self) -> complex:
        """Width and height of the whole."""
        wide, tall = self.columns * self.step.real, self.rows * self.step.imag
        return complex(wide + 2 * self.reach, tall + 2 * self.reach)

    def cell(self, column: int, row: int) -> tuple[complex, complex]:
        """The corners of a cell in the island's coordinates; at the rim of the island it reaches on to the end of its page."""
        return cell_corners((column, row), self.columns, self.rows, self.step, self.reach)


def tiles(
    shapes: Sequence[Shape], drawn: Sequence[Traces], laid: Laid, frame: Frame, column: int = 0
) -> tuple[tuple[Tile, ...], tuple[Plot, ...]]:
    """All pages of pieces in the order in which they are printed, and the islands they make; columns are named from the ``column``-th."""
    pages: list[Tile] = []
    plots: list[Plot] = []
    for island in laid.joined:
        labels = {(c, r): f"{column_name(column + c)}{island.rows - r}" for c, r in cells_in_order(island)}
        column += island.columns
        pages += (_tile(island, cell, labels, shapes, drawn, frame) for cell in cells_in_order(island))
        plots.append(Plot(island.placed, island.columns, island.rows, labels, frame.step, False, frame.reach))
    for placed in laid.alone:
        label = column_name(column)
        column += 1
        windows = tuple(Window(p.group, p.turn, p.shift + frame.low, frame.low, frame.high) for p in placed)
        pages.append(Tile(label, windows, {}))
        plots.append(Plot(placed, 1, 1, {(0, 0): label}, frame.usable, True))
    return tuple(pages), tuple(plots)


def pages_of(group: int, pages: Sequence[Tile]) -> tuple[int, ...]:
    """On which pages, counted from 0, a piece stands."""
    return tuple(k for k, page in enumerate(pages) if group in page.groups)


def names_on(tile: Tile, groups: Sequence[Group]) -> tuple[str, ...]:
    """What the pieces on a page are called."""
    return tuple(name_of(groups[k]) for k in tile.groups)


def _tile(
    island: Island,
    cell: Cell,
    labels: Mapping[Cell, str],
    shapes: Sequence[Shape],
    drawn: Sequence[Traces],
    frame: Frame,
) -> Tile:
    neighbours = {
        side: labels[beside]
        for side, (across, up) in _STEPS.items()
        if (beside := (cell[0] + across, cell[1] + up)) in labels
    }
    windows = []
    for placed in island.placed:
        shift = placed.shift + frame.shift(cell)
        moved = drawn[placed.group].moved(placed.turn, shift)
        # Cloth without a line on it is paper that is wanted too.
        if moved.reach_into(frame.low, frame.high) or reaches(
            shapes[placed.group], placed, cell, island, frame
        ):
            windows.append(Window(placed.group, placed.turn, shift, frame.low, frame.high))
    return Tile(labels[cell], tuple(windows), neighbours)
