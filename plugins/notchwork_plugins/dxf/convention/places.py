"""Points found again where they stand, up to how files round."""

from __future__ import annotations

from collections.abc import Iterable

NEAR = 0.05
"""mm: a point this near to another, or to a line, stands on it; files keep three decimals of a mm or four of an inch."""


class Places:
    """The numbers of points by where they stand."""

    def __init__(self, at: Iterable[complex]) -> None:
        self._at = list(at)
        self._cells: dict[tuple[int, int], list[int]] = {}
        for number, z in enumerate(self._at):
            self._cells.setdefault(_cell(z), []).append(number)

    def number(self, z: complex) -> int:
        """The number of the nearest point within NEAR, the first of equal ones; -1 where none is."""
        across, up = _cell(z)
        best, found = NEAR, -1
        for x in (across - 1, across, across + 1):
            for y in (up - 1, up, up + 1):
                for number in self._cells.get((x, y), ()):
                    far = abs(self._at[number] - z)
                    if far < best or (far <= best and (found < 0 or number < found)):
                        best, found = far, number
        return found


def _cell(z: complex) -> tuple[int, int]:
    return round(z.real / (2.0 * NEAR)), round(z.imag / (2.0 * NEAR))
