"""A piece in all its sizes: from a block for each, or from one block and grade rules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from notchwork_plugins.dxf.convention.group import InSize, PieceRead
from notchwork_plugins.dxf.convention.keys import BOUNDARY_IS_SEWN, BOUNDARY_UNKNOWN
from notchwork_plugins.dxf.convention.notches import Notch, feet_of, joined, tell_shapes, with_names
from notchwork_plugins.dxf.convention.orders import orders_of
from notchwork_plugins.dxf.convention.pieces import PieceBlocks
from notchwork_plugins.dxf.convention.plan import Plan, plan_of, unplaced
from notchwork_plugins.dxf.convention.rules.graded import Shifts, graded
from notchwork_plugins.dxf.convention.sheet import Sheet
from notchwork_plugins.dxf.convention.told import Told


@dataclass(frozen=True, slots=True)
class Grades:
    """The sizes of a file, of which ``base`` is drafted; ``ruled`` are those that its rules (mm) give, none without any."""

    sizes: Sequence[str]
    base: str | None
    ruled: Sequence[str]
    shifts: Shifts


def piece_in_sizes(piece: PieceBlocks, grades: Grades, told: Told) -> PieceRead | None:
    """The piece; None where its block holds none.

    A block alone is graded by the rules where it is that of the sample size, or of no size: what refers to no rule is the same
    in all of them.
    """
    first = piece.blocks.get(grades.base) or next(iter(piece.blocks.values()))
    plan = plan_of(first, told)
    if plan is None:
        return None
    alone = len(piece.blocks) == 1
    (size, *_) = piece.blocks
    if alone and grades.ruled and size in (None, grades.base):
        by_size = _by_rules(first, plan, grades.ruled, grades, told)
    elif alone and size is None and grades.sizes:
        by_size = _by_rules(first, plan, grades.sizes, grades, told)
    else:
        by_size = _by_blocks(piece, first, plan, grades.base, told)
    return PieceRead(piece.ident, piece.name, by_size, first.laid, tuple(_notes(first)))


def _notes(sheet: Sheet) -> Iterator[str]:
    """What texts with keys say that has no other place."""
    yield from orders_of(sheet)[1]
    yield from (f"Category: {value}" for value in sheet.stated.get("category", ()) if value)
    taken = (BOUNDARY_IS_SEWN, BOUNDARY_UNKNOWN, "")
    yield from (value for value in sheet.stated.get("annotation", ()) if value not in taken)


def _by_rules(sheet: Sheet, plan: Plan, sizes: Sequence[str], grades: Grades, told: Told) -> list[InSize]:
    """A block in every size; what is joined and named in the sample size is so in all."""
    base = grades.base
    every = graded(sheet, grades.shifts, sizes, told) if grades.shifts else dict.fromkeys(sizes, sheet)
    orders = orders_of(sheet)[0]
    notches = with_names({base: _notches(sheet, plan, told)}, base)[base]
    leans = {foot.number: foot.lean for notch in notches for foot in notch.feet}
    found: list[InSize] = []
    for size in sorted(sizes, key=lambda size: size != base):
        feet = {foot.number: foot for foot in feet_of(every[size], plan.outline, plan.cut, leans=leans)}
        own = [
            Notch(tuple(feet[foot.number] for foot in notch.feet), notch.name, notch.place_only)
            for notch in notches
            if all(foot.number in feet for foot in notch.feet)
        ]
        found.append(InSize(size, every[size], plan, own, orders))
    return found


def _by_blocks(piece: PieceBlocks, first: Sheet, plan: Plan, base: str | None, told: Told) -> list[InSize]:
    plans = {size: plan if sheet is first else plan_of(sheet, told) for size, sheet in piece.blocks.items()}
    there = {size: own for size, own in plans.items() if own is not None}
    notches = with_names({size: _notches(piece.blocks[size], own, told) for size, own in there.items()}, base)
    return [
        InSize(size, piece.blocks[size], there[size], notches[size], orders_of(piece.blocks[size])[0])
        for size in sorted(there, key=lambda size: piece.blocks[size] is not first)
    ]


def _notches(sheet: Sheet, plan: Plan, told: Told) -> list[Notch]:
    tell_shapes(sheet, told)
    notches, free = joined(feet_of(sheet, plan.outline, plan.cut, told), plan.notch_names)
    for name in free:
        unplaced(name, told)
        plan.notes.append(name.text)
    return notches
