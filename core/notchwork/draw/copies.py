"""Each piece as many times as it is cut, in either hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from notchwork.draw.orders import material_name
from notchwork.draw.stating import copied
from notchwork.drawing import Fact, Facts, Group, Stroke, Text
from notchwork.findings import NotchworkError
from notchwork.model import Cut, in_size
from notchwork.sewing import GradedPiece, Nest

MOST = 1000
"""Copies are drawn at once at most: more would keep a person waiting, and a machine for days."""
READABLE = 90.0
"""Degrees: words are turned by more than -90 and at most so many."""


@dataclass(frozen=True, slots=True)
class Copy:
    """One copy that is cut, from 1 among so many; ``turned`` is one of the other hand than drawn.

    It is cut in ``sizes`` (indices) only, of those drawn; ``stuff`` names what it is cut from.
    """

    number: int
    of: int
    turned: bool
    sizes: tuple[int, ...]
    stuff: str = ""

    @property
    def words(self) -> str:
        """ "2 of 4, mirrored"."""
        return f"{self.number} of {self.of}{', mirrored' if self.turned else ''}"

    @property
    def line(self) -> tuple[str, Facts]:
        """What stands on the piece: "copy 2 of 4, mirrored: Calico"."""
        return f"copy {self.words}{f': {self.stuff}' if self.stuff else ''}", {"kind": "copy"}


def is_cut_from(graded: GradedPiece, materials: Sequence[str] | None) -> bool:
    """Whether an order cuts a piece from one of the materials, by id; any piece where none are asked for."""
    return materials is None or any(m in materials for cut in graded.written.cut or () for m in cut.materials)


def copies_cut(
    nest: Nest, graded: GradedPiece, sizes: Sequence[int], materials: Sequence[str] | None
) -> tuple[Copy, ...]:
    """The copies that the cut orders ask for, from the materials chosen (all if None), those as drawn and in most sizes first.

    A copy stands in every size of which that many are cut. Empty where no order says how many, or none is to be cut. Raises
    NotchworkError where there are more than MOST.
    """
    found: list[tuple[bool, tuple[int, ...], str]] = []
    for cut in graded.written.cut or ():
        for material in cut.materials or ("",):
            if materials is None or material in materials:
                stuff = material_name(nest, material) if material else ""
                found += [(turned, there, stuff) for turned, there in _of(nest, cut, sizes)]
    if len(found) > MOST:
        raise NotchworkError(
            graded.name,
            f"It is cut {len(found):,} times, and no more than {MOST:,} copies are drawn at once.",
            "Leave out --copies, and repeat the drawing as often as it takes.",
        )
    found.sort(key=lambda copy: (copy[0], -len(copy[1])))
    return tuple(
        Copy(number, len(found), turned, there, stuff)
        for number, (turned, there, stuff) in enumerate(found, start=1)
    )


def _of(nest: Nest, cut: Cut, sizes: Sequence[int]) -> Iterator[tuple[bool, tuple[int, ...]]]:
    """The copies of one order in one material: the hand of each, and in which sizes it is cut."""
    for turned in (False, True):
        counts = {size: _hand(cut, turned, round(in_size(cut.count, nest.sizes[size]))) for size in sizes}
        for k in range(max(counts.values(), default=0)):
            yield turned, tuple(size for size in sizes if counts[size] > k)


def _hand(cut: Cut, turned: bool, count: int) -> int:
    """How many of so many copies are of one hand; the odd one of a pair is as drawn."""
    if cut.mirrored:
        return count // 2 if turned else count - count // 2
    return count if turned == (cut.hand == "mirrored") else 0


def as_copy(group: Group, copy: Copy) -> Group:
    """The drawing of a piece as one of its copies: the first as drawn is the piece itself, all others say that they are copies.

    One of the other hand is mirrored across the upright, its words stay readable.
    """
    if copy.turned:
        group = replace(
            group,
            strokes=tuple(_turned_stroke(stroke) for stroke in group.strokes),
            dots=tuple(replace(dot, at=-dot.at.conjugate()) for dot in group.dots),
            texts=tuple(_turned_texts(group.texts)),
        )
    if copy.number == 1 and not copy.turned:
        return group
    return replace(
        group,
        name=f"{group.name} copy {copy.number}",
        strokes=tuple(replace(stroke, facts=copied(stroke.facts, copy.number)) for stroke in group.strokes),
        dots=tuple(replace(dot, facts=copied(dot.facts, copy.number)) for dot in group.dots),
        texts=tuple(replace(text, facts=copied(text.facts, copy.number)) for text in group.texts),
        facts={
            **copied(group.facts, copy.number),
            "name": f"{group.facts.get('name', group.name)} ({copy.words})",
        },
    )


def _turned_stroke(stroke: Stroke) -> Stroke:
    facts: dict[Fact, str | float] = dict(stroke.facts)
    if "angle" in facts:
        facts["angle"] = 180.0 - float(facts["angle"])
    return replace(stroke, cubics=-np.conj(stroke.cubics), facts=facts)


def _turned_texts(texts: Sequence[Text]) -> Iterator[Text]:
    """All words of a piece; the lines below its name stay flush with it."""
    block = [text for text in texts if text.meaning in ("name", "note") and text.anchor == "start"]
    corners = np.array([corner for text in block for corner in text.box])
    across = -(corners.real.max() + corners.real.min()) if block else 0.0
    for text in texts:
        yield replace(text, at=text.at + across) if text in block else turned_text(text)


def turned_text(text: Text) -> Text:
    """Words whose box lies where the mirror has it, still to be read from below or from the right."""
    angle = -text.angle
    if angle <= -READABLE:
        angle += 180.0
    middle = sum(text.box) / 4
    off = (text.at - middle) * np.exp(1j * np.radians(angle - text.angle))
    return replace(text, at=complex(-middle.conjugate() + off), angle=angle)
