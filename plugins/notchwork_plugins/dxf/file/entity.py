"""What a DXF file holds, with the line on which each thing begins; values are text until someone asks for a number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from notchwork.findings import Finding
from notchwork_plugins.dxf.file.escapes import uncareted


@dataclass(frozen=True, slots=True, eq=False)
class Entity:
    """One entity: its kind ("LINE") and its tags as they stand, ``codes`` and ``values`` side by side.

    Every value of a code below 1000 that stands for a number is a finite number: that was checked when the file was opened.
    ``line`` (from 1) is where it begins, in a binary file the line that it would have as text; ``parts`` are the VERTEX of a POLYLINE and the ATTRIB of an INSERT.
    """

    kind: str
    codes: Sequence[int]
    values: Sequence[str]
    line: int
    parts: Sequence[Entity] = ()

    @property
    def layer(self) -> str:
        return self.text(8, "0")

    def text(self, code: int, default: str = "") -> str:
        """The first value of a code; tabs and line ends that were written with a caret are themselves again."""
        return uncareted(self.values[self.codes.index(code)]) if code in self.codes else default

    def number(self, code: int, default: float = 0.0) -> float:
        """The first value of a code as a number, in the file's unit or in degrees."""
        return float(self.values[self.codes.index(code)]) if code in self.codes else default

    def flag(self, code: int, default: int = 0) -> int:
        """The first value of a code as a whole number."""
        return int(float(self.values[self.codes.index(code)])) if code in self.codes else default

    def texts(self, code: int) -> list[str]:
        """All values of a code, in order."""
        return [
            uncareted(value) for known, value in zip(self.codes, self.values, strict=True) if known == code
        ]

    def numbers(self, code: int) -> list[float]:
        """All values of a code as numbers, in order."""
        return [float(value) for known, value in zip(self.codes, self.values, strict=True) if known == code]

    def point(self, code: int = 10) -> complex:
        """The point whose x stands at a code and y at ten more, in the file's unit."""
        return complex(self.number(code), self.number(code + 10))

    def extended(self, application: str) -> list[tuple[int, str]]:
        """The extended data (codes 1000 and above) that belong to an application, as they stand and without its name."""
        found: list[tuple[int, str]] = []
        current = None
        for code, value in zip(self.codes, self.values, strict=True):
            if code == 1001:
                current = value
            elif code >= 1000 and current == application:
                found.append((code, value))
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """A named group of entities; ``base`` is the point that an INSERT puts where it says, in the file's unit."""

    name: str
    base: complex
    entities: tuple[Entity, ...]
    line: int


@dataclass(frozen=True, slots=True)
class Layer:
    """What the layer table says of a layer: ``shown`` is False where it is off or frozen, ``colour`` its number, ``line_type``
    the name of its line type."""

    name: str
    shown: bool = True
    colour: int = 7
    line_type: str = "CONTINUOUS"


@dataclass(frozen=True, slots=True, eq=False)
class File:
    """A whole file. ``version`` is such as AC1009, None where the file says none; ``header`` has the variables' tags by name
    ("$INSUNITS"); ``objects`` the entities of the OBJECTS section, whose numbers are not checked; ``comments`` the 999 lines;
    ``encoding`` how its bytes were read; ``line_types`` the lengths of dashes, gaps below 0. Layers, line types and blocks are
    by their names in upper case, as DXF compares them. Of blocks with one name the first has it, those that follow stand under
    names that nothing can refer to. ``findings`` is what is to be said of the file itself.
    """

    version: str | None
    header: Mapping[str, tuple[tuple[int, str], ...]]
    layers: Mapping[str, Layer]
    blocks: Mapping[str, Block]
    entities: tuple[Entity, ...]
    objects: tuple[Entity, ...] = ()
    comments: tuple[str, ...] = ()
    encoding: str = "ascii"
    line_types: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
