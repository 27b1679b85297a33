"""What each line, point and text of a block is, by its number on the sheet, so that it holds in every size that is graded
from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.drawing import Fact, Meaning
from notchwork_plugins.dxf.convention import keys, layers, names
from notchwork_plugins.dxf.convention.names import Name, named
from notchwork_plugins.dxf.convention.outline import Ring, is_edge, outlines, ring, tell_outside
from notchwork_plugins.dxf.convention.sheet import Line, Sheet, Words
from notchwork_plugins.dxf.convention.told import MIRROR, NO_BOUNDARY, REFERENCE, UNPLACED, Told
from notchwork_plugins.dxf.said import MOST

ON_LINE = 5.0
"""mm: a text stands no further from a vertex of the line, or from the point, that it names."""
SHARP = 45.0
"""Degrees: the widest point of a dart, as everywhere where drawings are read."""

_CUT = (layers.CUT_OUTS,)
_INSIDE = (layers.INTERNAL, layers.SEW_LINES)

FactMap = dict[Fact, str | float]


@dataclass(slots=True, eq=False)
class Use:
    """What a line or a point is. ``apexes`` are the vertices of a dart's line at its points."""

    meaning: Meaning | None
    facts: FactMap = field(default_factory=dict)
    apexes: tuple[int, ...] = ()


@dataclass(slots=True, eq=False)
class Plan:
    """A block understood. ``outline`` is the stitch line where ``sewn``, else a cut line, or ``doubtful``; ``cut`` the boundary beside
    a stitch line."""

    outline: Ring
    sewn: bool
    cut: Ring | None
    doubtful: bool = False
    lines: dict[int, Use] = field(default_factory=dict)
    spots: dict[int, Use] = field(default_factory=dict)
    notch_names: list[Name] = field(default_factory=list)
    facts: FactMap = field(default_factory=dict)
    notes: list[Words] = field(default_factory=list)


def plan_of(sheet: Sheet, told: Told) -> Plan | None:
    """What a block holds; None, which is told, where it has no boundary. Only what the convention says is taken as said."""
    cut, sewn = outlines(sheet)
    called, notes = named(sheet.words)
    of_edges = [name for name in called if name.kind == "EDGE"]
    main = sewn if sewn is not None else cut
    if main is None:
        told.at_line(
            NO_BOUNDARY, "Block “{name}” has no closed boundary ({things}).", sheet.line, name=sheet.name
        )
        return None
    outline, free = ring(sheet, main, of_edges)
    boundary = ring(sheet, cut)[0] if sewn is not None and cut is not None else None
    if sewn is not None and cut is not None:
        tell_outside(sheet, sheet.lines[cut], sheet.lines[sewn], told)
    said = sheet.stated.get("annotation", ())
    is_sewn = sewn is not None or keys.BOUNDARY_IS_SEWN in said
    plan = Plan(outline, is_sewn, boundary, keys.BOUNDARY_UNKNOWN in said, notes=notes)
    plan.notch_names = [name for name in called if name.kind == "NOTCH"]
    free += _lines(
        sheet, plan, {main, cut}, [name for name in called if name.kind in (*names.LINES, "CUT OUT")], told
    )
    free += _spots(sheet, plan, [name for name in called if name.kind == "MARK"])
    for name in called:
        _piece_fact(plan, name)
    for name in free:
        unplaced(name, told)
        plan.notes.append(name.text)
    return plan


def unplaced(name: Name, told: Told) -> None:
    """A text whose thing is not there; it is kept as a note."""
    told.at_line(
        UNPLACED,
        "“{words}” stands on nothing that it could name, and is kept as a note ({things}).",
        name.text.line,
        words=name.text.words,
    )


def _piece_fact(plan: Plan, name: Name) -> None:
    match name.kind:
        case "GRAIN":
            plan.facts["grain"] = name.name
        case "USE":
            plan.facts["use"] = name.name
        case "BIAS TO":
            plan.facts["to"] = name.name
        case "STRIP":
            plan.facts["kind"] = "strip"


def _lines(
    sheet: Sheet, plan: Plan, rings: set[int | None], called: Sequence[Name], told: Told
) -> list[Name]:
    """Enter what the lines of a block are; the names that stand on none come back."""
    grains = 0
    for k, line in enumerate(sheet.lines):
        if k in rings:
            continue
        match line.layer:
            case layers.MIRROR:
                _mirror(sheet, plan, k, line, told)
            case layers.GRAIN:
                grains += 1
                if grains > 1:
                    told.left_out("a further grain line", "a piece has one", line.line)
                else:
                    plan.lines[k] = Use("grain")
            case layers.BOUNDARY | layers.CUT_OUTS:
                plan.lines[k] = Use("cut", {"kind": "cutout"})
            case layers.STRIPES | layers.PLAIDS:
                what = "stripe" if line.layer == layers.STRIPES else "plaid"
                plan.lines[k] = Use("inner", {"name": what})
                told.at_line(
                    REFERENCE,
                    "Kept as lines inside the piece: the {what} reference ({things}).",
                    line.line,
                    what=what,
                )
            case layers.SEW_LINES:
                plan.lines[k] = Use("inner")
            case _:
                plan.lines[k] = Use(None)
    return _name_lines(sheet, plan, called)


def _mirror(sheet: Sheet, plan: Plan, number: int, line: Line, told: Told) -> None:
    if plan.outline.folds and is_edge(sheet.lines[plan.outline.line], line):
        return
    plan.lines[number] = Use("inner", {"name": "mirror_line"})
    told.at_line(
        MIRROR,
        "No edge of block “{name}” lies on its mirror line ({things}): it is kept as a line inside the piece, and nothing is mirrored.",
        line.line,
        "If the block is half of the piece, draw its edge on that line.",
        name=sheet.name,
    )


def _name_lines(sheet: Sheet, plan: Plan, called: Sequence[Name]) -> list[Name]:
    free: list[Name] = []
    numbers = list(plan.lines)
    drawn = [sheet.lines[k] for k in numbers]
    vertices = np.concatenate([np.zeros(0, dtype=complex), *(line.z for line in drawn)])
    owner = np.repeat(np.arange(len(drawn)), [len(line.z) for line in drawn])
    layer = np.array([line.layer for line in drawn], dtype=int)[owner]
    left = np.ones(len(vertices), dtype=bool)
    for name in called:
        where = {"CUT OUT": _CUT, "LINE": (*_CUT, *_INSIDE)}.get(name.kind, _INSIDE)
        far = np.where(left & np.isin(layer, where), np.abs(vertices - name.at), np.inf)
        nearest = int(far.argmin()) if len(far) else 0
        if not len(far) or far[nearest] > ON_LINE:
            free.append(name)
            continue
        left &= owner != owner[nearest]
        number = numbers[owner[nearest]]
        line = sheet.lines[number]
        if line.layer in _CUT:
            plan.lines[number].facts["name"] = name.name
            continue
        use = Use(names.LINES[name.kind], {"name": name.name, **_more(name.more)})
        if name.kind == "DART":
            use.apexes = _apexes(line, name.at)
            if not use.apexes:
                free.append(name)
                continue
        plan.lines[number] = use
    return free


def _more(said: Mapping[str, str]) -> FactMap:
    facts: FactMap = {}
    if "to" in said:
        facts["to"] = said["to"]
    for key in ("width", "depth"):
        try:
            value = float(said[key])
        except (KeyError, ValueError):
            continue
        if abs(value) <= MOST:
            facts["width" if key == "width" else "depth"] = value
    if "edge" in said:
        facts["edge"] = said["edge"]
    return facts


def _apexes(line: Line, at: complex) -> tuple[int, ...]:
    """The vertices at the points of a dart: of an open line the one that is named, of a closed one that and the one opposite."""
    apex = int(np.abs(line.z - at).argmin())
    if not line.closed:
        return (apex,) if 0 < apex < len(line.z) - 1 else ()
    return (apex, (apex + 2) % 4) if len(line.z) == 4 else ()


def _spots(sheet: Sheet, plan: Plan, called: Sequence[Name]) -> list[Name]:
    """Enter what the drill holes are: marks, or the points of darts that are named; the names that stand on none come back."""
    points = [
        sheet.lines[k].z[apex]
        for k, use in plan.lines.items()
        if use.meaning == "dart"
        for apex in use.apexes
    ]
    for k, spot in enumerate(sheet.spots):
        if spot.layer == layers.DRILL_HOLES and not any(abs(spot.at - at) <= ON_LINE / 10.0 for at in points):
            plan.spots[k] = Use("mark", {"kind": "drill hole"})
    free: list[Name] = []
    numbers = list(plan.spots)
    at = np.array([sheet.spots[k].at for k in numbers], dtype=complex)
    left = np.ones(len(at), dtype=bool)
    for name in called:
        far = np.where(left, np.abs(at - name.at), np.inf)
        nearest = int(far.argmin()) if len(far) else 0
        if not len(far) or far[nearest] > ON_LINE:
            free.append(name)
            continue
        left[nearest] = False
        facts = plan.spots[numbers[nearest]].facts
        facts.clear()
        facts["name"] = name.name
        if "kind" in name.more:
            facts["kind"] = name.more["kind"]
    return free


def nodes_on(sheet: Sheet, line: Line) -> list[int]:
    """The vertices of a line at which curve points stand."""
    found: list[int] = sheet.marked_on(line, layers.CURVES).tolist()
    return found
