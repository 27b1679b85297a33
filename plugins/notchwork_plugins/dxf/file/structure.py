"""Tags to a file: header, layers, line types, blocks, entities and objects."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from notchwork.findings import Finding, Place, safe
from notchwork_plugins.dxf.file.codes import EXTENDED, numeric, real
from notchwork_plugins.dxf.file.damage import Damage
from notchwork_plugins.dxf.file.entity import Block, Entity, Layer
from notchwork_plugins.dxf.file.marks import Marks, Section
from notchwork_plugins.dxf.file.vertices import Vertices, entity_of
from notchwork_plugins.dxf.rules import REPEATED_BLOCK

FARTHEST = 1e9
"""No coordinate, length or angle of a drawing is more than this in its own unit."""

_CHECKED = frozenset({"HEADER", "TABLES", "BLOCKS", "ENTITIES"})
_DRAWN = frozenset({"BLOCKS", "ENTITIES"})


@dataclass(slots=True)
class Structure:
    """What the sections of a file hold. ``broken`` says that the file breaks off in its last mark."""

    marks: Marks
    damage: Damage
    broken: bool
    header: dict[str, tuple[tuple[int, str], ...]] = field(default_factory=dict)
    layers: dict[str, Layer] = field(default_factory=dict)
    line_types: dict[str, tuple[float, ...]] = field(default_factory=dict)
    blocks: dict[str, Block] = field(default_factory=dict)
    entities: list[Entity] = field(default_factory=list)
    objects: list[Entity] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    _bad: set[int] = field(default_factory=set)

    def read(self, sections: list[Section]) -> None:
        """All sections. Raises Unreadable for damage that is not borne."""
        for section in sections:
            if section.name in _CHECKED:
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
        """Every number must be one, and those of drawn things within bounds."""
        tags, marks = self.marks.tags, self.marks
        first = marks.firsts[section.mark]
        end = marks.firsts[section.end] if section.end < len(marks.firsts) else len(tags.codes)
        codes, numbers = tags.codes[first:end], tags.numbers[first:end]
        wrong = numeric(codes) & (codes < EXTENDED) & ~np.isfinite(numbers)
        if section.name in _DRAWN:
            wrong |= real(codes) & (codes < EXTENDED) & ~(np.abs(numbers) <= FARTHEST)
        for at in (first + np.flatnonzero(wrong)).tolist():
            mark = int(np.searchsorted(marks.firsts, at, "right")) - 1
            self._bad.add(mark)
            self.damage.met(
                int(tags.lines[at]) + 1, self._why(at), f"The {safe(marks.kinds[mark])[:40]} was left out."
            )

    def _why(self, at: int) -> str:
        """What is wrong with the number of a tag."""
        said = safe(self.marks.tags.values(at, at + 1)[0].strip())[:40]
        number = self.marks.tags.numbers[at]
        if not said:
            return "A number should stand here, and the line is empty."
        if "," in said:
            return f"“{said}” is no number in DXF, which writes decimals with a point."
        if np.isfinite(number):
            return f"“{said}” is larger than anything that is drawn."
        return f"“{said}” is no number that can be measured with."

    def _header(self, section: Section) -> None:
        first, end = self.marks.firsts[section.mark], self.marks.ends[section.mark]
        name = ""
        for code, value in self.marks.tags.pairs(first, end):
            if code == 9:
                name = value.strip().upper()
                self.header[name] = ()
            elif name:
                self.header[name] += ((code, value.strip()),)

    def _tables(self, section: Section) -> None:
        for at in range(section.mark + 1, section.end):
            kind = self.marks.kinds[at]
            if kind not in ("LAYER", "LTYPE") or at in self._bad:
                continue
            entry = self._entity(at)
            name = entry.text(2).strip()
            if kind == "LTYPE":
                self.line_types[name.upper()] = tuple(entry.numbers(49))
            else:
                colour = entry.flag(62, 7)
                shown = colour >= 0 and not entry.flag(70) & 1
                self.layers[name.upper()] = Layer(
                    name, shown, abs(colour), entry.text(6, "CONTINUOUS").strip()
                )

    def _blocks(self, section: Section) -> None:
        kinds = self.marks.kinds
        at = section.mark + 1
        while at < section.end:
            if kinds[at] != "BLOCK":
                if kinds[at] != "ENDBLK":
                    self.damage.met(
                        self.marks.line(at),
                        f"{safe(kinds[at])[:40]} stands outside every block.",
                        "It was left out.",
                    )
                at += 1
                continue
            end = at + 1
            while end < section.end and kinds[end] not in ("BLOCK", "ENDBLK"):
                end += 1
            self._block(at, end)
            at = end

    def _block(self, at: int, end: int) -> None:
        head = self._entity(at)
        name = (head.text(2) or head.text(3)).strip()
        if end >= len(self.marks.kinds) or self.marks.kinds[end] != "ENDBLK":
            said = f"The block “{safe(name)[:60]}” that began in line {head.line} has no end (ENDBLK) before this."
            self.damage.met(self.marks.line(end), said, "It was taken to end there.")
        key = name.upper()
        if not key or key in self.blocks:
            # No INSERT can name a key with a line end in it.
            key = f"{key}\n{head.line}"
            if name:
                self.findings.append(
                    Finding(
                        REPEATED_BLOCK,
                        Place(),
                        "Two blocks are called {name}: in line {first} and in line {second}.",
                        "Give one of them another name.",
                        {
                            "name": f"“{name}”",
                            "first": str(self.blocks[name.upper()].line),
                            "second": str(head.line),
                        },
                    )
                )
        inside = tuple(self._entities(at + 1, end))
        if at in self._bad:
            return
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
                at = self._ended(begun, at, end, f"its {len(parts)} vertices were kept.")
            elif marks.vertices(begun):
                self.damage.met(
                    int(marks.tags.lines[marks.ends[begun]]),
                    "A vertex belongs to no polyline.",
                    "It was left out.",
                )
            elif kind == "INSERT" and at < end and marks.kinds[at] == "ATTRIB":
                first = at
                while at < end and marks.kinds[at] == "ATTRIB":
                    at += 1
                parts = tuple(self._entity(part) for part in range(first, at) if part not in self._bad)
                at = self._ended(begun, at, end, "it was kept.")
            if kind == "SEQEND" or begun in self._bad:
                continue
            if self.broken and at >= len(marks.kinds):
                self.damage.met(marks.line(begun), f"{safe(kind)[:40]} may not be whole.", "It was left out.")
                continue
            yield self._entity(begun, parts)

    def _ended(self, begun: int, at: int, end: int, kept: str) -> int:
        """Beyond the SEQEND that must end vertices and attributes."""
        if at < end and self.marks.kinds[at] == "SEQEND":
            return at + 1
        if not (self.broken and at >= len(self.marks.kinds)):
            why = f"The {self.marks.kinds[begun]} that began in line {self.marks.line(begun)} has no end (SEQEND) before this."
            self.damage.met(self.marks.line(at), why, f"It was taken to end there; {kept}")
        return at

    def _entity(self, at: int, parts: Vertices | tuple[Entity, ...] = ()) -> Entity:
        marks = self.marks
        return entity_of(marks.tags, marks.kinds[at], marks.firsts[at], marks.ends[at], parts)
