"""A drawing as a file of the sewn-products convention: blocks of pieces, texts with keys, layers by number.

It follows ANSI/AAMA 292 and ASTM D6673-10 from memory. ``write_valid`` makes a file that general CAD programs open: with header and
tables, pieces laid side by side, and the pattern's document in the extended data of the style's texts. ``write_bare`` makes one with
blocks and entities only, as some programs of the trade demand: there every block must be a piece, and the document goes along in
comments where that is wanted.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.findings import Finding, NotchworkError, Place
from notchwork.formats import Written
from notchwork_plugins.dxf import attached
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.rules import CUT_SHORT, NOT_BY_RULES, SIZES_RENAMED
from notchwork_plugins.dxf.write import tags
from notchwork_plugins.dxf.write.blocks import Sheet, entities
from notchwork_plugins.dxf.write.frame import header, tables
from notchwork_plugins.dxf.write.items import Piece
from notchwork_plugins.dxf.write.names import Names, plain
from notchwork_plugins.dxf.write.options import chosen
from notchwork_plugins.dxf.write.pieces import pieces_of
from notchwork_plugins.dxf.write.ruled import Rules, why_not_ruled

if TYPE_CHECKING:
    from notchwork.drawing import Drawing

FOLLOWS = "Follows ANSI/AAMA 292 and ASTM D6673 (withdrawn 2019)."
TYPE, LEADING = 8.0, 14.0
"""mm: height of the style's texts, and from one to the next."""
NOT_PIECES = ("legend", "test-square")
APART = 20.0
"""mm that the style's texts stand below all pieces."""


def write_valid(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """Valid R12, and a rule file where sizes are written as rules. Raises NotchworkError for an option that cannot be."""
    return _Writing.of(drawing, options, valid=True).written(".dxf", ".rul")


def write_bare(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """Without header and tables; the document goes along in comments, or not at all. Raises NotchworkError for an option that cannot be."""
    return _Writing.of(drawing, options, valid=False).written(".bare.dxf", ".bare.rul")


@dataclass(slots=True)
class _Block:
    piece: Piece
    size: int
    ruled: bool


@dataclass(slots=True)
class _Writing:
    drawing: Drawing
    sheet: Sheet
    valid: bool
    sizes: tuple[str | None, ...]
    sample: str | None
    blocks: list[_Block]
    findings: list[Finding]

    @classmethod
    def of(cls, drawing: Drawing, options: Mapping[str, str], valid: bool) -> _Writing:
        if any("copy" in group.facts for group in drawing.groups):
            raise NotchworkError(
                "DXF of the sewn-products convention",
                "Each piece is one block in it, and its QUANTITY says how many are cut.",
                "Leave out --copies.",
            )
        choices = chosen(options)
        sizes = drawing.sizes or (None,)
        sample = drawing.base if drawing.base in sizes else sizes[0]
        self = cls(drawing, Sheet(choices), valid, sizes, sample, [], [])
        for group in drawing.groups:
            if group.facts.get("kind") in NOT_PIECES:
                continue
            for piece in pieces_of(group, sizes, choices):
                self._take(piece)
        return self

    def _take(self, piece: Piece) -> None:
        by_rules = self.sheet.choices.by_rules and len(self.sizes) > 1
        why = why_not_ruled(piece, self.sizes, self.sample) if by_rules else ""
        if by_rules and not why:
            self.blocks.append(_Block(piece, piece.sizes.index(self.sample), True))
            return
        self.blocks += [_Block(piece, k, False) for k in range(len(piece.sizes))]
        if why and not any(finding.place.piece == piece.name for finding in self.findings):
            text = "It is written with one block for each size, not with grade rules, because {why}."
            hint = "Whoever receives the file takes its sizes from the blocks; the other pieces are graded by the rule file."
            self.findings.append(Finding(NOT_BY_RULES, Place(piece=piece.name), text, hint, {"why": why}))

    def written(self, suffix: str, rule_suffix: str) -> Written:
        names, sheet = Names(), self.sheet
        rules = Rules(sheet.choices.unit)
        blocks, inserts = [], []
        pieces: dict[str, str] = {}
        for block in self.blocks:
            piece = block.piece
            size = None if block.ruled else piece.sizes[block.size]
            name = names.of(piece.name, size)
            held = entities(piece, block.size, sheet, self.valid, rules if block.ruled else None)
            # The block's own origin moves it beside the others, so that its coordinates are the piece's and it is inserted at 0, 0.
            base = -piece.shift if self.valid else 0j
            pieces[name] = tags.escaped(piece.name)[
                : tags.MOST_LETTERS - len(name) - len("NOTCHWORK piece =")
            ]
            blocks.append(tags.block(name, sheet.at(base), held))
            inserts.append(tags.insert(layers.BOUNDARY, name, sheet.at(0j)))
        drawn = self._framed(blocks, [*self._style(bool(len(rules))), *inserts])
        comments = (
            attached.comments_of(self.drawing.attached, pieces)
            if sheet.choices.comments and not self.valid
            else []
        )
        # Behind the sections: programs look at the first lines to know what a file is.
        parts = [tags.comment(FOLLOWS), *drawn, *map(tags.comment, comments), "0\nEOF\n"]
        files = {suffix: tags.encoded(parts)}
        if len(rules):
            sizes = self._sizes_in_rules()
            files[rule_suffix] = rules.file(self._table, list(sizes.values()), sizes[self.sample])
        return Written(files, (*self.findings, *self._cut_short()))

    def _framed(self, blocks: Sequence[str], placed: Sequence[str]) -> list[str]:
        drawn = [tags.section("BLOCKS", blocks), tags.section("ENTITIES", placed)]
        if not self.valid:
            return drawn
        low, high = self._extents()
        used = {item.layer for block in self.blocks for item in block.piece.items}
        used |= {layers.BOUNDARY, layers.TURNS, layers.CURVES}
        return [header(self.sheet.at(low), self.sheet.at(high)), tables(used), *drawn]

    def _extents(self) -> tuple[complex, complex]:
        every = [
            item.z[block.size].ravel() + block.piece.shift
            for block in self.blocks
            for item in block.piece.items
            if not np.isnan(item.z[block.size]).any()
        ]
        z = np.concatenate([*every, np.zeros(0 if every else 1)])
        return complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())

    @property
    def _table(self) -> str:
        return plain(self.drawing.title)[:31] or "TABLE"

    def _style(self, ruled: bool) -> list[str]:
        """The texts of the style, below all pieces; the document goes along on them, and on more of them only where it must."""
        said = [f"STYLE NAME: {self.drawing.title}"]
        if self.sample is not None:
            said.append(f"SAMPLE SIZE: {self._sizes_in_rules()[self.sample] if ruled else self.sample}")
        if ruled:
            said.append(f"GRADE RULE TABLE: {self._table}")
        said.append(f"UNITS: {self.sheet.choices.unit.word}")
        carried: list[list[str]] = []
        if self.valid and self.drawing.attached is not None:
            carried = attached.parts_of(self.drawing.attached)
        said += [f"DOCUMENT: part {k} of {len(carried)}" for k in range(len(said) + 1, len(carried) + 1)]
        carried += [[] for _ in range(len(said) - len(carried))]
        low, _ = self._extents()
        return [
            self.sheet.text(layers.BOUNDARY, low - 1j * (APART + LEADING * k), words, TYPE, strings)
            for k, (words, strings) in enumerate(zip(said, carried, strict=True))
        ]

    def _sizes_in_rules(self) -> dict[str | None, str]:
        """The sizes as a list of them can name them: in plain letters, without the blanks that part them."""
        found: dict[str | None, str] = {}
        for size in self.sizes:
            word = first = "_".join(tags.escaped(str(size)).split()) or "SIZE"
            count = 1
            while word in found.values():
                count += 1
                word = f"{first}_{count}"
            found[size] = word
        renamed = {size: word for size, word in found.items() if size != word}
        if renamed and not any(finding.rule is SIZES_RENAMED for finding in self.findings):
            text = "A list of sizes has blanks between their names, so {sizes} is written as {words}."
            values = {"sizes": tuple(str(size) for size in renamed), "words": tuple(renamed.values())}
            self.findings.append(Finding(SIZES_RENAMED, Place(), text, "", values))
        return found

    def _cut_short(self) -> list[Finding]:
        if not self.sheet.cut_short:
            return []
        text = "A line of text holds {most} letters at most, and fewer that are not plain; what is longer was cut: {words}."
        words = tuple(dict.fromkeys(f"{words[:40]}…" for words in self.sheet.cut_short))
        values = {"most": str(tags.MOST_LETTERS), "words": words}
        return [
            Finding(CUT_SHORT, Place(), text, "Choose shorter names where the whole must be read.", values)
        ]
