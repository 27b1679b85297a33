"""The tags that begin something: sections, tables, blocks, entities. Vertices stay with the polyline before them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import safe
from notchwork_plugins.dxf.file.damage import Damage
from notchwork_plugins.dxf.file.tags import Cut, Tags


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """What begins where, in lists side by side: its kind in capitals, its first tag (as an array too), where its own tags end, and the heads of
    its vertices (from one up to the next)."""

    tags: Tags
    kinds: list[str]
    begins: NDArray[np.int64]
    firsts: list[int]
    ends: list[int]
    heads: list[int]

    def line(self, at: int) -> int:
        """The line on which a mark stands, or the last line for one beyond all."""
        if at >= len(self.firsts):
            return int(self.tags.lines[-1]) + 1
        return int(self.tags.lines[self.firsts[at]])

    def vertices(self, at: int) -> int:
        """How many vertices follow a mark."""
        return self.heads[at + 1] - self.heads[at] - 1

    def text(self, at: int, code: int) -> str:
        """The first value of a code among a mark's own tags, "" for none."""
        first, end = self.firsts[at], self.ends[at]
        found = np.flatnonzero(self.tags.codes[first:end] == code)
        return self.tags.values(first + int(found[0]), first + int(found[0]) + 1)[0] if len(found) else ""


def marks_of(tags: Tags) -> Marks:
    """All marks of a file."""
    own = np.flatnonzero(~tags.is_vertex)
    bounds = np.append(tags.heads, len(tags.codes))
    return Marks(
        tags,
        [kind.decode("ascii", "replace") for kind in tags.kinds],
        tags.heads[own],
        tags.heads[own].tolist(),
        bounds[own + 1].tolist(),
        [*own.tolist(), len(tags.heads)],
    )


@dataclass(frozen=True, slots=True)
class Section:
    """A section by its name in capitals: its own mark, and where the marks in it end."""

    name: str
    mark: int
    end: int


def sections_of(marks: Marks, cut: Cut | None, damage: Damage) -> tuple[list[Section], int | None]:
    """All sections, and the mark of EOF, None where there is none.

    Raises Unreadable where sections do not begin and end as they must, unless damage is borne.
    """
    found: list[Section] = []
    begun: int | None = None
    end = None
    for at, kind in enumerate(marks.kinds):
        if kind == "SECTION":
            if begun is not None:
                damage.met(marks.line(at), _open(marks, begun), "It was taken to end there.")
                found.append(_section(marks, begun, at))
            begun = at
        elif kind == "ENDSEC":
            if begun is None:
                damage.met(
                    marks.line(at), "A section ends here (ENDSEC) that never began.", "It was passed over."
                )
            else:
                found.append(_section(marks, begun, at))
                begun = None
        elif kind == "EOF":
            end = at
            break
        elif begun is None:
            damage.met(marks.line(at), f"{safe(kind)[:40]} stands outside every section.", "It was left out.")
    if end is None:
        _broken_off(marks, cut, begun, damage)
    elif begun is not None:
        damage.met(marks.line(end), _open(marks, begun), "It was taken to end there.")
    if begun is not None:
        stop = end if end is not None else len(marks.kinds)
        found.append(_section(marks, begun, stop))
    return found, end


def _section(marks: Marks, mark: int, end: int) -> Section:
    return Section(marks.text(mark, 2).strip().upper(), mark, end)


def _open(marks: Marks, begun: int) -> str:
    name = safe(marks.text(begun, 2).strip())[:40] or "without a name"
    return f"The section {name} that began in line {marks.line(begun)} has no end (ENDSEC) before this."


def _broken_off(marks: Marks, cut: Cut | None, begun: int | None, damage: Damage) -> None:
    where = ""
    if begun is not None:
        where = f", in the section {safe(marks.text(begun, 2).strip())[:40]}"
    if cut is not None:
        line, why = cut.line, f"The file is damaged here{where}: {cut.why}."
    else:
        line, why = (
            marks.line(len(marks.kinds)),
            f"The file breaks off here{where}: its end (EOF) is missing.",
        )
    damage.met(line, why, "Nothing after this was read.")
