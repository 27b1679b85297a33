"""Vertices of polylines, and other long rows of values, all at once in arrays: there may be a million."""

from __future__ import annotations

from collections.abc import Sequence
from typing import overload

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.dxf.file.entity import Entity
from notchwork_plugins.dxf.file.tags import Tags

FRAME = 16
"""The flag (70) of a vertex that belongs to the frame of a fitted curve. Source: the DXF reference of Autodesk, VERTEX."""

_LONG = 256

Corners = tuple[NDArray[np.complex128], NDArray[np.float64]]


def corners(entity: Entity) -> Corners:
    """The vertices (n,) of a POLYLINE or LWPOLYLINE in the file's unit, and the bulge (n,) of the stretch after each.

    Of a fitted POLYLINE the points of the frame that it was fitted to are left out.
    """
    if isinstance(entity.parts, Vertices):
        return entity.parts.corners()
    if entity.parts:
        kept = [part for part in entity.parts if part.kind == "VERTEX" and not part.flag(70) & FRAME]
        points = np.array([part.point() for part in kept], np.complex128)
        return points, np.array([part.number(42) for part in kept], np.float64)
    codes = np.array(entity.codes, np.int16)
    if isinstance(entity.values, Values):
        numbers = entity.values.numbers
    else:
        numbers = np.array(
            [
                float(value) if code in (10, 20, 42) else 0.0
                for code, value in zip(entity.codes, entity.values, strict=True)
            ]
        )
    return _gathered(codes, numbers, np.flatnonzero(codes == 10))


def _gathered(codes: NDArray[np.int16], numbers: NDArray[np.float64], begins: NDArray[np.int64]) -> Corners:
    """The points and bulges of vertices that begin at these tags; what stands before the first belongs to none."""
    columns = np.zeros((3, len(begins)))
    for column, code in zip(columns, (10, 20, 42), strict=True):
        found = np.flatnonzero(codes == code)
        owner = np.searchsorted(begins, found, "right") - 1
        column[owner[owner >= 0]] = numbers[found[owner >= 0]]
    return columns[0] + 1j * columns[1], columns[2]


class Vertices(Sequence[Entity]):
    """The vertices of a POLYLINE as entities, each made when it is asked for."""

    __slots__ = ("_heads", "_tags")

    def __init__(self, tags: Tags, first: int, end: int) -> None:
        """The vertices from the head ``first`` up to the head ``end``."""
        self._tags = tags
        stop = tags.heads[end] if end < len(tags.heads) else len(tags.codes)
        self._heads = np.append(tags.heads[first:end], stop)

    def __len__(self) -> int:
        return len(self._heads) - 1

    @overload
    def __getitem__(self, at: int) -> Entity: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Entity]: ...
    def __getitem__(self, at: int | slice) -> Entity | Sequence[Entity]:
        if isinstance(at, slice):
            return [self[k] for k in range(*at.indices(len(self)))]
        if not -len(self) <= at < len(self):
            raise IndexError(at)
        at %= len(self)
        return entity_of(self._tags, "VERTEX", int(self._heads[at]), int(self._heads[at + 1]))

    def corners(self) -> Corners:
        """The points (n,) and bulges (n,) of those that are no part of a frame."""
        first, end = int(self._heads[0]), int(self._heads[-1])
        codes, numbers = self._tags.codes[first:end], self._tags.numbers[first:end]
        begins = self._heads[:-1] - first
        points, bulges = _gathered(codes, numbers, begins)
        flags = np.flatnonzero(codes == 70)
        if not len(flags):
            return points, bulges
        kept = np.ones(len(self), bool)
        is_frame = numbers[flags].astype(np.int64) & FRAME != 0
        kept[np.searchsorted(begins, flags[is_frame], "right") - 1] = False
        return points[kept], bulges[kept]


class Values(Sequence[str]):
    """The values of an entity with many, put into text only when one is asked for; ``numbers`` (n,) are there at once."""

    __slots__ = ("_end", "_first", "_tags", "_texts")

    def __init__(self, tags: Tags, first: int, end: int) -> None:
        self._tags, self._first, self._end = tags, first, end
        self._texts: list[str] | None = None

    @property
    def numbers(self) -> NDArray[np.float64]:
        """The values as numbers, NaN where the code stands for none."""
        return self._tags.numbers[self._first : self._end]

    def __len__(self) -> int:
        return self._end - self._first

    @overload
    def __getitem__(self, at: int) -> str: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[str]: ...
    def __getitem__(self, at: int | slice) -> str | Sequence[str]:
        if self._texts is None:
            self._texts = self._tags.values(self._first, self._end)
        return self._texts[at]


def entity_of(tags: Tags, kind: str, first: int, end: int, parts: Sequence[Entity] = ()) -> Entity:
    """The entity whose tags go from ``first``, its kind, up to ``end``."""
    first, line = first + 1, int(tags.lines[first])
    values = Values(tags, first, end) if end - first > _LONG else tags.values(first, end)
    return Entity(kind, tags.codes[first:end].tolist(), values, line, parts)
