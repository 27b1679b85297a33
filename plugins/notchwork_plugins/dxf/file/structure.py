"""Tags to a file: header, layers, line types, blocks, entities and objects."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from notchwork.findings import safe
from notchwork_plugins.dxf.file.damage import Damage
from notchwork_plugins.dxf.file.entity import Block, Entity, Layer
from notchwork_plugins.dxf.file.marks import Marks, Section
from notchwork_plugins.dxf.file.sound import unsound, why_unsound
from notchwork_plugins.dxf.file.tables import Variables, dashes_of, layer_of, variables_of
from notchwork_plugins.dxf.file.vertices import Vertices, entity_of
from notchwork_plugins.dxf.rules import REPEATED_BLOCK


@dataclass(slots=True, eq=False)
class Structure:
    """What the sections of a file hold. ``broken`` says that the file breaks off in its last mark."""

    marks: Marks
    damage: Damage
    broken: bool
    header: Variables = field(default_factory=dict)
    layers: dict[str, Layer] = field(default_factory=dict)
    line_types: dict[str, tuple[float, ...]] = field(default_factory=dict)
    blocks: dict[str, Block] = field(default_factory=dict)
    entities: list[Entity] = field(default_factory=list)
    objects: list[Entity] = field(default_factory=list)
    _bad: set[int] = field(default_factory=set)

    def read(self, sections: list[Section]) -> None:
        """All sections. Raises Unreadable for damage that is not borne."""
        for section in sections:
            self._check_numbers(section)
            if section.name == "HEADER":
                self._header(section)
            elif section.name == "TABLES":
                self._tables(section)
            elif section.name == "BLOCKS":
                self._blocks(section)
            elif section.name == "ENTITIES":
                self.entities += self._entities(section.mark + 1, section.end)
            elif section.name == "OBJECTS":
                self.objects += self._entities(section.mark + 1, section.end)

    def _check_numbers(self, section: Section) -> None:
        marks, tags = self.marks, self.marks.tags
        end = marks.firsts[section.end] if section.end < len(marks.firsts) else len(tags.codes)
        wrong = unsound(tags, marks.firsts[section.mark], end, section.name)
        if not len(wrong):
            return
        # One fault of each thing is told: that leaves it out already.
        things, first = np.unique(np.searchsorted(marks.begins, wrong, "right") - 1, return_index=True)
        for mark, at in zip(things.tolist(), wrong[first].tolist(), strict=True):
            self._bad.add(mark)
            what = "header" if mark == section.mark else _short(marks.kinds[mark])
            why, repair = why_unsound(tags, at)
            self.damage.met(int(tags.lines[at]) + 1, why, f"The {what} was left out.", repair)

    def _header(self, section: Section) -> None:
        if section.mark not in self._bad:
            first, end = self.marks.firsts[section.mark], self.marks.ends[section.mark]
            self.header |= variables_of(self.marks.tags.pairs(first, end))

    def _tables(self, section: Section) -> None:
        for at in range(section.mark + 1, section.end):
            kind = self.marks.kinds[at]
            if kind not in ("LAYER", "LTYPE") or at in self._bad:
                continue
            entry = self._entity(at)
            name = entry.text(2).strip().upper()
            if kind == "LAYER":
                self.layers[name] = layer_of(entry)
            else:
                self.line_types[name] = dashes_of(entry)

    def _blocks(self, section: Section) -> None:
        kinds = self.marks.kinds
        at = section.mark + 1
        while at < section.end:
            begun, at = at, at + 1
            if kinds[begun] == "BLOCK":
                while at < section.end and kinds[at] not in ("BLOCK", "ENDBLK"):
                    at += 1
                self._block(begun, at)
            elif kinds[begun] != "ENDBLK":
                why = f"{_short(kinds[begun])} stands outside every block."
                self.damage.met(self.marks.line(begun), why, "It was left out.")

    def _block(self, at: int, end: int) -> None:
        head = self._entity(at)
        name = (head.text(2) or head.text(3)).strip()
        if end >= len(self.marks.kinds) or self.marks.kinds[end] != "ENDBLK":
            why = f"The block “{safe(name)[:60]}” that began in line {head.line} has no end (ENDBLK) before this."
            self.damage.met(self.marks.line(end), why, "It was taken to end there.")
        inside = tuple(self._entities(at + 1, end))
        if at in self._bad:
            return
        key = name.upper()
        if key in self.blocks:
            text = "Two blocks are called “{name}”: in line {first} and in line {second}."
            places = {"first": str(self.blocks[key].line), "second": str(head.line)}
            values = {"name": name, **places}
            self.damage.notes.add(REPEATED_BLOCK, text, "Give one of them another name.", values=values)
        if not key or key in self.blocks:
            # No INSERT can name a key with a line end in it.
            key = f"{key}\n{head.line}"
        self.blocks[key] = Block(name, head.point(), inside, head.line)

    def _entities(self, at: int, end: int) -> Iterator[Entity]:
        """The entities from one mark up to another, with their vertices and attributes."""
        marks = self.marks
        while at < end:
            kind = marks.kinds[at]
            begun, at = at, at + 1
            parts: Vertices | tuple[Entity, ...] = ()
            if kind == "POLYLINE":
                parts = Vertices(marks.tags, marks.heads[begun] + 1, marks.heads[begun + 1])
                at = self._ended(begun, at, end)
            elif marks.vertices(begun):
                line = int(marks.tags.lines[marks.ends[begun]])
                self.damage.met(line, "A vertex belongs to no polyline.", "It was left out.")
            elif kind == "INSERT" and at < end and marks.kinds[at] == "ATTRIB":
                while at < end and marks.kinds[at] == "ATTRIB":
                    at += 1
                parts = tuple(self._entity(part) for part in range(begun + 1, at) if part not in self._bad)
                at = self._ended(begun, at, end)
            if kind == "SEQEND" or begun in self._bad:
                continue
            if self.broken and at >= len(marks.kinds):
                self.damage.met(marks.line(begun), f"{_short(kind)} may not be whole.", "It was left out.")
                continue
            yield self._entity(begun, parts)

    def _ended(self, begun: int, at: int, end: int) -> int:
        """Beyond the SEQEND that must end vertices and attributes."""
        marks = self.marks
        if at < end and marks.kinds[at] == "SEQEND":
            return at + 1
        if not (self.broken and at >= len(marks.kinds)):
            why = f"The {marks.kinds[begun]} that began in line {marks.line(begun)} has no end (SEQEND) before this."
            self.damage.met(marks.line(at), why, "It was taken to end there.")
        return at

    def _entity(self, at: int, parts: Vertices | tuple[Entity, ...] = ()) -> Entity:
        marks = self.marks
        return entity_of(marks.tags, marks.kinds[at], marks.firsts[at], marks.ends[at], parts)


def _short(kind: str) -> str:
    return safe(kind)[:40]
