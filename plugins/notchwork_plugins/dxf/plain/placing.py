"""Blocks placed by INSERT: every entity that shows, with the map to where it lies, its layer, and what holds it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from notchwork.findings import Notes, safe
from notchwork.geometry.affine import IDENTITY, Affine, rotation, scaling, translation
from notchwork_plugins.dxf.file import Block, Entity, File, Unreadable
from notchwork_plugins.dxf.plain.looks import Looks, Pen
from notchwork_plugins.dxf.plain.nesting import Nesting, block_name, rows_and_columns
from notchwork_plugins.dxf.plain.planes import plane
from notchwork_plugins.dxf.plain.rules import DEAD_BLOCK
from notchwork_plugins.dxf.plain.sorts import NOT_DRAWN, Sorts

MOST_DEEP = 16
"""As many blocks may lie in each other."""
MOST_PLACED = 300_000
"""As many entities may there be once every block is placed."""
_INVISIBLE = 1
MOST_TAGS = 12_000_000
"""As many tags may they hold together, vertices with them."""


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """An entity where it lies: ``place`` maps the coordinates of what holds it to the drawing's, ``layer`` is its own, ``within``
    names the blocks round it, the outermost first."""

    entity: Entity
    place: Affine
    layer: str
    pen: Pen
    within: tuple[str, ...]


@dataclass(slots=True)
class _Scope:
    entities: Iterator[Entity]
    place: Affine = IDENTITY
    layer: str = "0"
    pen: Pen = field(default_factory=Pen)
    within: tuple[str, ...] = ()
    depth: int = 0


class Placing:
    """Goes through a file's entities and those of the blocks that they place."""

    def __init__(self, file: File, name: str, looks: Looks, sorts: Sorts, notes: Notes) -> None:
        self._file = file
        self._name = name
        self._looks = looks
        self._sorts = sorts
        self._notes = notes
        self._nesting = Nesting(file.blocks)
        self._times: Counter[str] = Counter()
        self.used: set[str] = set()
        self.hidden: Counter[str] = Counter()

    def through(self) -> Iterator[Placed]:
        """Every entity that draws or writes. Raises Unreadable where it is more than can be read."""
        entities = [entity for entity in self._file.entities if not self._sorts.is_on_paper(entity)]
        count, tags = self._nesting.weight(entities)
        if count > MOST_PLACED or tags > MOST_TAGS:
            raise Unreadable(
                self._name,
                f"With every block placed, the drawing would have too many parts: {_figure(count)}.",
                "Look for blocks that are placed in rows and columns, or that hold each other many times.",
            )
        stack = [_Scope(iter(entities))]
        while stack:
            entity = next(stack[-1].entities, None)
            if entity is None:
                stack.pop()
                continue
            yield from self._visit(entity, stack)

    def _visit(self, entity: Entity, stack: list[_Scope]) -> Iterator[Placed]:
        scope = stack[-1]
        if entity.kind in NOT_DRAWN:
            return
        own = entity.layer.strip()
        # What lies on layer 0 of a block shows as the layer does on which the block is placed.
        layer = scope.layer if own in ("0", "") and scope.depth else own
        if self._hides(entity, layer) or self._sorts.sets_aside(entity, layer):
            self._use_all(entity)
            return
        pen = self._looks.pen(entity, layer.upper(), scope.pen)
        if entity.kind != "INSERT":
            yield Placed(entity, scope.place, own, pen, scope.within)
            return
        for part in entity.parts:
            shown = part.layer.strip() if part.layer.strip() not in ("0", "") else layer
            if part.kind == "ATTRIB" and not part.flag(70) & _INVISIBLE and not self._hides(part, shown):
                yield Placed(part, scope.place, part.layer.strip(), pen, scope.within)
        block = self._block(entity, scope)
        if block is None:
            return
        cells = [
            _Scope(
                iter(block.entities),
                place,
                layer,
                pen,
                (*scope.within, self._next_name(block.name)),
                scope.depth + 1,
            )
            for place in _cells(entity, scope.place, block.base)
        ]
        stack += reversed(cells)

    def _hides(self, entity: Entity, layer: str) -> bool:
        """Whether an entity is not shown, which is then remembered."""
        known = self._file.layers.get(layer.upper())
        if known is not None and not known.shown:
            self.hidden[known.name] += 1
            return True
        if 60 in entity.codes and entity.flag(60) & 1:
            self.hidden[""] += 1
            return True
        return False

    def _block(self, entity: Entity, scope: _Scope) -> Block | None:
        """The block that an INSERT places; None, and said why, where it cannot."""
        name = entity.text(2).strip()
        block = self._file.blocks.get(name.upper())
        thing = f"{safe(name)[:40] or 'without a name'} (line {entity.line})"
        if block is None:
            text = "Blocks that are placed and not in the file: {things}."
            hint = "Drawings in other files are never fetched: bind them in the CAD program, and save again."
        elif block_name(entity) in self._nesting.endless:
            text = "Left out, because the block would hold itself without end: {things}."
            hint = "Draw it anew."
            self._use_all(entity)
        elif scope.depth >= MOST_DEEP:
            text = "Left out, because too many blocks lie in each other: {things}."
            hint = "Explode the outer blocks in the CAD program, and save again."
        else:
            self.used.add(block_name(entity))
            return block
        self._notes.add(DEAD_BLOCK, text, hint, thing)
        return None

    def _next_name(self, name: str) -> str:
        """What this copy of a block is called: each by itself, the first as the block."""
        plain = "block" if name.startswith("*") else name
        self._times[plain] += 1
        count = self._times[plain]
        return plain if count == 1 else f"{plain} {count}"

    def _use_all(self, entity: Entity) -> None:
        """Blocks that are placed where nothing shows are used all the same."""
        if entity.kind == "INSERT":
            self.used |= self._nesting.all_in(block_name(entity))


def _cells(entity: Entity, outer: Affine, base: complex) -> Iterator[Affine]:
    """The maps from a block's coordinates to the drawing's, one for each cell of the array.

    Rows and columns are counted along the turned axes, and their distances are not scaled.
    """
    turn = rotation(math.radians(entity.number(50)))
    own = turn.after(scaling(entity.number(41, 1.0), entity.number(42, 1.0))).after(translation(-base))
    at = outer.after(plane(entity)).after(translation(entity.point()))
    rows, columns = rows_and_columns(entity)
    step = complex(entity.number(44), entity.number(45))
    for row in range(rows):
        for column in range(columns):
            shift = turn.direction(complex(column * step.real, row * step.imag))
            yield at.after(translation(shift)).after(own)


def _figure(count: int) -> str:
    return f"{count:,}" if count < 10**9 else f"10^{len(str(count)) - 1}"
