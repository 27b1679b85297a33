"""Which blocks are one piece in several sizes, and in which order sizes go."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from notchwork.recognise.words.ids import slug, unique
from notchwork.recognise.words.size_names import LETTERS
from notchwork_plugins.dxf.convention.sheet import Sheet

_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


@dataclass(frozen=True, slots=True, eq=False)
class PieceBlocks:
    """A piece: its id, its name as the file has it, and its block in each size (None where sizes are not told apart)."""

    ident: str
    name: str | None
    blocks: dict[str | None, Sheet]


def pieces_of(sheets: Sequence[Sheet], known: Sequence[str]) -> list[PieceBlocks]:
    """The pieces in the order of their first blocks. ``known`` are the sizes that the file names elsewhere.

    A block's SIZE text is its size; else what follows the last hyphen of its name, where that is a size that the file knows, or
    where it is for another block that is called alike before the hyphen.
    Blocks of one PIECE NAME are one piece, if no size stands in it twice; else those of one stem of the block name are.
    """
    sizes = {*known, *(size for sheet in sheets if (size := sheet.value("size")) is not None)}
    sizes |= _beside_known(sheets, sizes)
    stems = [_stem(sheet, sizes) for sheet in sheets]
    by_name: dict[str, list[int]] = {}
    for k, sheet in enumerate(sheets):
        by_name.setdefault(sheet.value("piece") or stems[k][0], []).append(k)
    groups: list[list[int]] = []
    for numbers in by_name.values():
        if len({stems[k][1] for k in numbers}) == len(numbers):
            groups.append(numbers)
            continue
        # One name for several pieces: left and right, or copies.
        by_stem: dict[str, list[int]] = {}
        for k in numbers:
            by_stem.setdefault(stems[k][0], []).append(k)
        for alike in by_stem.values():
            distinct = len({stems[k][1] for k in alike}) == len(alike)
            groups += [alike] if distinct else [[k] for k in alike]
    found: list[PieceBlocks] = []
    for numbers in sorted(groups, key=min):
        first = sheets[numbers[0]]
        wanted = first.ident or slug(stems[numbers[0]][0]) or slug(first.value("piece") or "") or "piece"
        ident = unique(wanted, [piece.ident for piece in found])
        found.append(PieceBlocks(ident, first.value("piece"), {stems[k][1]: sheets[k] for k in numbers}))
    return found


def _beside_known(sheets: Sequence[Sheet], sizes: Collection[str]) -> set[str]:
    """What follows the hyphen in names of blocks without a SIZE where it is a size that is known in one called alike: "front-S"
    beside "front-M", if M is the sample size."""
    known = {slug(size) for size in sizes}
    ends: dict[str, set[str]] = {}
    for sheet in sheets:
        start, hyphen, end = sheet.name.rpartition("-")
        if hyphen and start and slug(end) and sheet.value("size") is None:
            ends.setdefault(start, set()).add(end)
    found: set[str] = set()
    for own in ends.values():
        kinds = {_kind(end) for end in own if slug(end) in known}
        # Left and right are called L and R.
        found |= {end for end in own if slug(end) not in known and _kind(end) in kinds}
    return found


def _kind(size: str) -> str:
    """What a size is called by."""
    return "number" if _NUMBER.fullmatch(size) else "letters" if size.upper() in LETTERS else "word"


def _stem(sheet: Sheet, sizes: Iterable[str]) -> tuple[str, str | None]:
    """The name of a block without its size, and its size."""
    said = sheet.value("size")
    start, hyphen, end = sheet.name.rpartition("-")
    known = {slug(size): size for size in sizes}
    if not hyphen or not start:
        return sheet.name, said
    if said is not None:
        return (start if slug(end) == slug(said) else sheet.name), said
    return (start, known[slug(end)]) if slug(end) in known else (sheet.name, None)


def in_order(pieces: Sequence[PieceBlocks]) -> tuple[str, ...]:
    """All sizes in order: numbers by how large they are, letters as usual, others as the piece with the most of them has them."""
    most = sorted(pieces, key=lambda piece: -len(piece.blocks))
    sizes = list(dict.fromkeys(size for piece in most for size in piece.blocks if size is not None))
    if all(_NUMBER.fullmatch(size) for size in sizes):
        return tuple(sorted(sizes, key=lambda size: float(size.replace(",", "."))))
    if all(size.upper() in LETTERS for size in sizes):
        return tuple(sorted(sizes, key=lambda size: LETTERS.index(size.upper())))
    return tuple(sizes)
