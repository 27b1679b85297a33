"""Where gathers and ease begin and end, and where openings do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.draw.places import facts_of_size, inner_base, place_on, places_on, reading_angle
from notchwork.draw.plate import Plate
from notchwork.draw.stretches import ends_of
from notchwork.drawing import ADVANCE, Fact, Stroke, Text
from notchwork.geometry import lines
from notchwork.model import Opening, Seam
from notchwork.sewing import GradedPiece, Interval, Line, Nest, SideWalk, Stretch
from notchwork.sewing.pieces.lines import SAME_SPOT, Floats
from notchwork.sewing.walks.spans import stretches_of
from notchwork.sewing.walks.walk import walk_seam

VERBS = {"gathered": "gather", "eased": "ease", "stretched": "stretch"}
"""What is done to a side, by the kind of its join; pleats are drawn as such."""
ENDS = {"zip": "zip ends here", "lacing": "lacing ends here"}
"""What is said where an opening ends, by its kind; of all others that the opening does."""
TICK, ARROW, HEAD = 9.0, 8.0, 3.0
"""mm: how far a limit reaches into the piece, how long its arrow is, and the arrow's head."""
TYPE = 3.5
"""mm: the height of its words."""
DEPTHS = (2.0, 7.0, 12.0, 17.0)
"""mm from the edge at which words are tried."""


@dataclass(frozen=True, slots=True, eq=False)
class Limit:
    """Words at an arc position (mm, sizes) of a line. ``way`` is +1 or -1 where what they speak of lies on in the line's order or
    against it, 0 where they stand at the place itself; ``tick``: the place itself is marked."""

    line: Line
    at: Floats
    words: str
    way: int
    tick: bool
    facts: Mapping[Fact, str | float]


def limits_of(nest: Nest) -> Mapping[str, tuple[Limit, ...]]:
    """All limits by piece."""
    found: dict[str, dict[tuple[object, ...], Limit]] = {}
    for limit in (*_fullness(nest), *_openings(nest)):
        where = tuple(np.round(np.nan_to_num(limit.at), 1))
        found.setdefault(limit.line.piece, {}).setdefault((limit.line.name, limit.words, *where), limit)
    return {piece: tuple(limits.values()) for piece, limits in found.items()}


def limit_parts(
    nest: Nest, graded: GradedPiece, limits: Sequence[Limit], sizes: Sequence[int], plate: Plate
) -> Iterator[Stroke | Text]:
    """A tick in every size, an arrow and words in the first; words keep clear of what the plate holds."""
    for limit in limits:
        if limit.tick:
            for size in sizes:
                if np.isfinite(limit.at[size]):
                    at, out = place_on(nest, graded, limit.line, float(limit.at[size]), size)
                    facts = {**limit.facts, **facts_of_size(nest, size)}
                    yield Stroke(lines(np.array([at, at - TICK * out])), "limit", facts=facts)
        size = sizes[0]
        if not np.isfinite(limit.at[size]):
            continue
        at, out = place_on(nest, graded, limit.line, float(limit.at[size]), size)
        if limit.tick and limit.way:
            along = 1j * graded.sense * out * limit.way
            tip = at - 0.7 * TICK * out + ARROW * along
            wings = [tip - HEAD * along * np.exp(1j * s * np.radians(25)) for s in (1, -1)]
            for run in (np.array([tip - ARROW * along, tip]), np.array([wings[0], tip, wings[1]])):
                yield Stroke(lines(run), "limit", facts={**limit.facts, "kind": "arrow"})
        yield plate.best(_texts(nest, graded, limit, size))


def _texts(nest: Nest, graded: GradedPiece, limit: Limit, size: int) -> Iterator[Text]:
    """The words at every place that is tried, the best first."""
    wide = ADVANCE * TYPE * len(limit.words)
    length, at = float(limit.line.length[size]), float(limit.at[size])
    beside = ARROW + 2.0 if limit.way else 3.0
    step = wide / 2 + beside if limit.tick else 0.0
    shifts = (limit.way * step,) if limit.way else (step, -step, 0.0)
    arcs = [_within(limit.line, at + shift, wide, length) for shift in shifts]
    at_each, outward = places_on(nest, graded, limit.line, arcs, size, wide / 3)
    for depth in DEPTHS:
        for z, out in zip(at_each, outward, strict=True):
            base = inner_base(complex(z), complex(out), TYPE, depth)
            yield Text(base, limit.words, TYPE, "limit", "middle", reading_angle(out), limit.facts)


def _within(line: Line, arc: float, wide: float, length: float) -> float:
    """The arc position (mm), moved so that words of a width about it do not reach beyond the line's ends where it is long enough."""
    if line.closed:
        return arc % length
    least = min(wide, length) / 2
    return min(max(arc, least), length - least)


def _fullness(nest: Nest) -> Iterator[Limit]:
    for ident, seam in nest.pattern.seams.items():
        for number, side in enumerate(seam.sides[1:], start=1):
            if side.join is not None and side.join.kind in VERBS:
                verb = VERBS[side.join.kind]
                facts: dict[Fact, str | float] = {"seam": ident, "kind": side.join.kind}
                walked = nest.sides[ident][number]
                run = None if side.join.between is None else _between(nest, ident, seam, number)
                if run is None:
                    for stretch in walked.stretches:
                        if stretch.line.rows is not None:
                            low, high = ends_of(stretch)
                            yield _limit(stretch.line, (low + high) / 2, f"{verb} all along", 0, False, facts)
                else:
                    yield from _ends(walked, run, verb, facts)


def _between(nest: Nest, ident: str, seam: Seam, number: int) -> tuple[Floats, Floats] | None:
    """Where on a further side its fullness begins and ends, as sewn distances from its start; round a ring it may end before it
    begins. None where it is the whole side."""
    intervals = walk_seam(nest, ident, seam).others[number - 1].intervals
    full = [k for k, interval in enumerate(intervals) if interval.full]
    if not full or len(full) == len(intervals):
        return None
    runs: list[list[Interval]] = []
    for k in full:
        if k - 1 not in full:
            runs.append([])
        runs[-1].append(intervals[k])
    if seam.closed and len(runs) > 1 and full[0] == 0 and full[-1] == len(intervals) - 1:
        runs[0] = runs.pop() + runs[0]
    return runs[0][0].start.other, runs[0][-1].stop.other


def _ends(
    side: SideWalk, run: tuple[Floats, Floats], verb: str, facts: Mapping[Fact, str | float]
) -> Iterator[Limit]:
    for at, words, way in ((run[0], f"{verb} from here", 1), (run[1], f"{verb} to here", -1)):
        found = _on_side(side, at, begins=way > 0)
        if found is not None and found[0].line.rows is not None:
            stretch, arc = found
            onward = way if stretch.forward else -way
            tick = stretch.line.kind != "edge" or stretch.line.corner_at(arc) is None
            yield _limit(stretch.line, arc, words, onward, tick, facts)


def _on_side(side: SideWalk, at: Floats, begins: bool) -> tuple[Stretch, Floats] | None:
    """The stretch and the arc position (sizes) on its line of a sewn distance; at a joint the stretch that begins there, or ends."""
    known = np.flatnonzero(np.isfinite(at))
    if not len(known):
        return None
    size = int(known[0])
    inward = SAME_SPOT if begins else -SAME_SPOT
    stretch, _ = side.stretch_at(float(at[size]) + inward, size)
    start = side.starts[side.stretches.index(stretch)]
    arcs = np.full_like(at, np.nan)
    for k in known.tolist():
        arcs[k] = stretch.arc_at(float(at[k] - start[k]), k)
    return stretch, arcs


def _openings(nest: Nest) -> Iterator[Limit]:
    """The ends of openings that lie inside an edge; one at a corner ends with the edge."""
    for ident, opening in nest.pattern.openings.items():
        words = ENDS.get(opening.kind, "opening ends here")
        facts: dict[Fact, str | float] = {"name": ident, "kind": opening.kind}
        for stretch, at_start in _outer_ends(nest, opening):
            arc = stretch.start if at_start else stretch.stop
            line = stretch.line
            if line.rows is not None and (line.kind != "edge" or line.corner_at(arc) is None):
                yield _limit(line, arc, words, 0, True, facts)


def _outer_ends(nest: Nest, opening: Opening) -> Iterator[tuple[Stretch, bool]]:
    first = opening.sections[0] if opening.sections else [lip[0] for lip in opening.lips or ()]
    last = opening.sections[-1] if opening.sections else [lip[-1] for lip in opening.lips or ()]
    for spans, at_start in ((first, True), (last, False)):
        for span in spans:
            for stretch in stretches_of(nest, span):
                yield stretch, at_start


def _limit(
    line: Line, at: Floats, words: str, way: int, tick: bool, facts: Mapping[Fact, str | float]
) -> Limit:
    return Limit(line, at, words, way, tick, {**facts, "edge": line.name})
