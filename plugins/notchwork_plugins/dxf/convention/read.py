"""A file of the convention as a drawing whose parts say what they mean."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from notchwork.drawing import Drawing
from notchwork.findings import Length, Place, safe
from notchwork.formats import Read, Source
from notchwork_plugins.dxf.attached import APPLICATION, MissingPart, document_of, in_comments
from notchwork_plugins.dxf.convention.curves import Curves
from notchwork_plugins.dxf.convention.keys import keyed, units_of
from notchwork_plugins.dxf.convention.kind import blocks_of
from notchwork_plugins.dxf.convention.options import Choices, choices
from notchwork_plugins.dxf.convention.pieces import in_order, pieces_of
from notchwork_plugins.dxf.convention.rings import closed_up
from notchwork_plugins.dxf.convention.rules.beside import decoded, tell_other
from notchwork_plugins.dxf.convention.rules.deltas import shifts_of
from notchwork_plugins.dxf.convention.rules.graded import Shifts
from notchwork_plugins.dxf.convention.rules.table import Table, read_table
from notchwork_plugins.dxf.convention.scaled import scaled
from notchwork_plugins.dxf.convention.several import parted
from notchwork_plugins.dxf.convention.sheet import Sheet, extents, sheet_of
from notchwork_plugins.dxf.convention.sized import Grades, piece_in_sizes
from notchwork_plugins.dxf.convention.told import (
    DOCUMENT,
    NO_RULES,
    SHIFTED,
    SIZES_BY_NAME,
    UNITS,
    UNITS_DOUBTED,
    Told,
)
from notchwork_plugins.dxf.file.entity import Block, File
from notchwork_plugins.dxf.file.errors import Unreadable

MOST_VERTICES = 200_000
"""Of all lines in all blocks: pieces in twenty sizes, digitised finely, have some ten thousand, and curves are laid through so many
in half a minute."""
INCHES_BELOW = 120.0
"""Where nothing says what a unit is and the largest piece has no more of them, lines are looked at as if they were inches; the
drawing keeps the file's own numbers."""
INCH = 25.4
LONGEST = 5000.0
"""mm: a longer piece in a file that counts in inches is asked about."""
OURS = "Shifts in the rule file are from the sample size."
"""A comment by which files of this program say how their rules are meant."""
NOTHING = 1e-6


def read(file: File, source: Source, options: Mapping[str, str]) -> Read:
    """The drawing: a group for each piece, in it every size. Raises NotchworkError for options that cannot be."""
    return _Reading(file, source, choices(options)).read()


@dataclass(slots=True, eq=False)
class _Reading:
    file: File
    source: Source
    choices: Choices
    told: Told = field(default_factory=Told)

    def read(self) -> Read:
        style = self._style()
        mm = self.choices.mm
        if mm is None:
            mm = next(
                (known for value in style.get("units", ()) if (known := units_of(value)) is not None), None
            )
        blocks = blocks_of(self.file)
        working = mm if mm is not None else self._looked_at(blocks)
        laid = self._laid(blocks, working)
        read = [(sheet_of(block, working, APPLICATION, self.told), block) for block in blocks]
        self._check_size(sum(len(line.z) for sheet, _ in read for line in sheet.lines))
        _, called = in_comments(self.file.comments)
        sheets = [
            replace(sheet, laid=laid.get(name, 0j), ident=sheet.ident or called.get(name))
            for whole, block in read
            for name in (block.name.upper(),)
            for sheet in parted(closed_up(whole, self.told), self.told)
        ]
        if mm is None:
            self._ask_units(sheets, working, style)
        elif mm == INCH and self.choices.mm is None:
            self._doubt_inches(sheets)
        drawing = self._drawing(sheets, style, working, mm is None)
        return Read(None, (*self.file.findings, *self.told.findings()), drawing=drawing)

    def _check_size(self, vertices: int) -> None:
        if vertices > MOST_VERTICES:
            raise Unreadable(
                self.source.name,
                f"The drawing is larger than any pattern: its lines have {vertices:,} vertices, and at most {MOST_VERTICES:,} are read.",
                "Export fewer pieces or sizes in one file; lines that were digitised too finely can be simplified in the program that "
                "made them.",
            )

    def _style(self) -> dict[str, tuple[str, ...]]:
        """What the texts outside the blocks state; everything else there is told, but for INSERTs."""
        style: dict[str, tuple[str, ...]] = {}
        for entity in self.file.entities:
            pair = keyed(entity.text(1)) if entity.kind == "TEXT" else None
            if pair is not None:
                style[pair[0]] = (*style.get(pair[0], ()), pair[1])
                if pair[0] in ("author", "creation date", "creation time", "version") and pair[1]:
                    self.told.left_out(
                        f"{pair[0]} ({safe(pair[1])})", "a drawing has no place for it", entity.line
                    )
            elif entity.kind != "INSERT":
                words = f" “{entity.text(1)}”" if entity.kind == "TEXT" else ""
                self.told.unknown(
                    f"{entity.kind}{words} outside all blocks, on layer {entity.layer}", entity.line
                )
        for block in blocks_of(self.file):
            for entity in block.entities:
                pair = keyed(entity.text(1)) if entity.kind == "TEXT" else None
                if pair is not None and pair[0] in ("units", "sample size", "style", "rule table"):
                    style[pair[0]] = (*style.get(pair[0], ()), pair[1])
        return style

    def _looked_at(self, blocks: Sequence[Block]) -> float:
        """As what the units are looked at where they are not known; nothing that is given back depends on it."""
        largest = extents(sheet_of(block, 1.0, APPLICATION, Told()) for block in blocks)
        return INCH if largest <= INCHES_BELOW else 1.0

    def _ask_units(
        self, sheets: Sequence[Sheet], working: float, style: Mapping[str, tuple[str, ...]]
    ) -> None:
        largest = max(sheets, key=lambda sheet: extents([sheet]), default=None)
        if largest is None:
            return
        units = extents([largest]) / working
        called = largest.value("piece") or largest.name
        said = next((value for value in style.get("units", ()) if value), None)
        why = "Nothing says whether the file counts in millimetres or inches"
        if said is not None:
            why = "The file counts in “{said}”, which is neither METRIC (mm) nor ENGLISH (inches)"
        self.told.add(
            UNITS,
            why + ": is “{piece}” {units} mm long, or {units} inches?",
            "Read it with units=metric or units=english (-O units=metric).",
            said=safe((said or "")[:40]),
            piece=safe(called),
            units=f"{units:.4g}",
        )

    def _doubt_inches(self, sheets: Sequence[Sheet]) -> None:
        largest = max(sheets, key=lambda sheet: extents([sheet]), default=None)
        if largest is None or (long := extents([largest])) <= LONGEST:
            return
        self.told.add(
            UNITS_DOUBTED,
            "The file says that it counts in inches, and “{piece}” is {long} long by that; if it counts in millimetres, it is {short}.",
            "Measure the piece. If the shorter is right, read the file with units=metric (-O units=metric).",
            piece=safe(largest.value("piece") or largest.name),
            long=Length(long),
            short=Length(long / INCH),
        )

    def _drawing(
        self, sheets: Sequence[Sheet], style: Mapping[str, tuple[str, ...]], mm: float, unknown: bool
    ) -> Drawing:
        def said(key: str) -> str | None:
            return next((value for value in style.get(key, ()) if value), None)

        sample = said("sample size")
        table = self._table(sheets, mm)
        known = [*(table.sizes if table is not None else ()), *([sample] if sample else [])]
        pieces = pieces_of(sheets, known)
        unsaid = {
            size
            for piece in pieces
            for size, sheet in piece.blocks.items()
            if size and size not in known and not sheet.value("size")
        }
        if unsaid:
            named = tuple(size for size in in_order(pieces) if size in unsaid)
            text = "No text in the blocks says their sizes; they are taken from the blocks' names: {sizes}."
            self.told.add(SIZES_BY_NAME, text, sizes=named)
        if table is not None:
            tell_other(table, sample, said("rule table"), self.told)
        shifts = self._shifts(table) if table is not None else {}
        sizes = table.sizes if table is not None else ()
        sizes = (*sizes, *(size for size in in_order(pieces) if size not in sizes))
        base = sample if sample in sizes else sizes[len(sizes) // 2] if sizes else None
        base = table.sample if table is not None else base
        grades = Grades(sizes, base, table.sizes if table is not None else (), shifts)
        found = (piece_in_sizes(piece, grades, self.told) for piece in pieces)
        made = [piece for piece in found if piece is not None]
        curves = Curves(self.choices.chord)
        for piece in made:
            piece.ask(curves)
        curves.fit(self.told)
        drawing = Drawing(
            tuple(piece.group(curves) for piece in made),
            said("style") or "",
            tuple(sizes),
            base,
            rules={f"rule_{number}": by for number, by in shifts.items()},
            attached=self._attached(),
            unit="in" if mm == INCH and not unknown else "mm",
            fine=self.choices.chord,
        )
        return replace(scaled(drawing, 1.0 / mm), scale=None) if unknown else drawing

    def _laid(self, blocks: Sequence[Block], mm: float) -> dict[str, complex]:
        """Where the file lays its blocks (mm), by their names."""
        base = {block.name.upper(): block.base for block in blocks}
        laid: dict[str, complex] = {}
        for entity in self.file.entities:
            name = entity.text(2).upper()
            if entity.kind != "INSERT" or name in laid:
                continue
            if name not in base:
                self.told.unknown(f"INSERT of “{entity.text(2)}”, which is no piece", entity.line)
                continue
            at = entity.point()
            laid[name] = (at - base[name]) * mm
            if abs(at) > NOTHING:
                text = (
                    "The file lays blocks elsewhere on the sheet, which moves none of their lines ({things})."
                )
                self.told.at_line(SHIFTED, text, entity.line)
            scales = (entity.number(code, 1.0) for code in (41, 42))
            if entity.number(50) != 0.0 or any(abs(scale - 1.0) > NOTHING for scale in scales):
                text = "The file lays blocks turned or scaled; they are read as they stand, unturned and at their own scale ({things})."
                self.told.at_line(SHIFTED, text, entity.line)
        return laid

    def _table(self, sheets: Sequence[Sheet], mm: float) -> Table | None:
        """The rule table beside the file, where points refer to rules."""
        referred = sum(len(sheet.rules) for sheet in sheets)
        suffix = self.choices.rules
        if not referred or suffix is None:
            return None
        beside = self.source.beside(suffix) or self.source.beside(suffix.upper())
        if beside is None:
            self.told.add(
                NO_RULES,
                "Points refer to grade rules, and there is no rule file ({suffix}) beside the drawing: only the sample size is read.",
                "Put the rule file beside the drawing, under its name; rules=none says that there is none.",
                suffix=suffix,
            )
            return None
        table, faults = read_table(decoded(beside.data, self.file.encoding), beside.name, mm)
        self.told.extend(faults)
        return table

    def _shifts(self, table: Table) -> Shifts:
        ours = any(OURS in comment for comment in self.file.comments)
        return shifts_of(table, self.choices.deltas or ("cumulative" if ours else None), self.told)

    def _attached(self) -> bytes | None:
        """The document that goes along on the texts outside the blocks, or in comments; None, which is told, where a part is missing."""
        carried = (
            [value for code, value in entity.extended(APPLICATION) if code == 1000]
            for entity in (
                *self.file.entities,
                *(e for block in self.file.blocks.values() for e in block.entities),
            )
        )
        try:
            found = document_of(strings for strings in carried if strings)
            return found if found is not None else document_of(in_comments(self.file.comments)[0])
        except MissingPart as why:
            self.told.add(
                DOCUMENT,
                "The document that went along cannot be read, for {why}; what is drawn is read all the same.",
                "Read the file as it was written, or the pattern in the open format.",
                Place(),
                why=str(why),
            )
            return None
