"""Signs on a piece: notches, darts, pleats, marks, the grain's arrow and the word at a fold."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.places import facts_of_size, inner_base, place_on, places_on, reading_angle
from notchwork.draw.words import shortened
from notchwork.drawing import Dot, Fact, Facts, Stroke, Text
from notchwork.findings import plain_name
from notchwork.geometry import lines
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.darts import darts_of

INSIDE = 3.0
"""mm that a notch reaches into the piece."""
OUTSIDE = 6.0
"""mm that it reaches into the allowance, at most: as deep as it is cut. 1/8 to 1/4 in (3 to 6 mm): common practice, no source."""
SPACING = 8.0
"""mm between the nicks of a double or triple notch, where nothing is stated."""
NICKS = {"single": 1, "double": 2, "triple": 3}
HEAD = 6.0
"""mm: the length of an arrow's head."""
PLEAT = 40.0
"""mm of a pleat's folds that are drawn."""
STRIP_ANGLES = {"lengthwise": 0.0, "cross": 90.0, "bias": 45.0}
"""Degrees at which the lengthwise thread lies in a strip."""
TURNS = 1e-6
"""Degrees: grainlines that differ by less in all sizes are one line."""
STILL = 1e-4
"""mm: a mark that moves by less from size to size stays where it is."""
FOLD_TYPE = 5.0
"""Height (mm) of the words along a fold."""
MARK_TYPE = 4.0
"""Height (mm) of the name beside a mark."""
CROSS = 3.0
"""mm: half the width of a mark's cross."""


def notch_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """A tick for every nick, across the stitch line and square to it; INSIDE mm of it lie on the cloth."""
    for name, notch in graded.written.notches.items():
        if notch is None or (graded.id, name) not in nest.notches or notch.edge not in graded.lines:
            continue
        line, arc = graded.lines[notch.edge], float(nest.notches[graded.id, name][size])
        if line.rows is None or not np.isfinite(arc):
            continue
        depth = min(float(allowance(graded, notch.edge)[size]), OUTSIDE)
        count, spacing = NICKS[notch.kind], notch.spacing or SPACING
        facts: dict[Fact, str | float] = {
            "name": name,
            "edge": notch.edge,
            "kind": notch.kind,
            "depth": depth,
            **facts_of_size(nest, size),
        }
        if count > 1:
            facts["width"] = spacing
        if notch.use is not None:
            facts["use"] = notch.use
        arcs = [arc + (k - (count - 1) / 2) * spacing for k in range(count)]
        for at, outward in zip(*places_on(nest, graded, line, arcs, size), strict=True):
            tick = np.array([at - INSIDE * outward, at + depth * outward])
            yield Stroke(lines(tick), "notch", facts=facts)


def dart_parts(nest: Nest, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Stroke | Dot]:
    """The legs of every dart, from the foot that is written first, and its points."""
    for shape in darts_of(nest, [graded.id]):
        for size in sizes:
            facts: dict[Fact, str | float] = {"name": shape.name, **facts_of_size(nest, size)}
            yield from (Dot(complex(apex), "dart", facts) for apex in shape.apexes[size] if np.isfinite(apex))
            if shape.dart.edge is not None:
                facts["edge"] = shape.dart.edge
            if shape.dart.press is not None:
                facts["to"] = shape.dart.press
            for leg in shape.legs[size]:
                if np.isfinite(leg).all():
                    yield Stroke(leg[None, :], "dart", facts=facts)


def pleat_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """Both folds of a pleat, and an arrow from the one that is laid to the one it is laid on."""
    for line in graded.lines.values():
        for intake in line.intakes:
            if intake.kind != "pleat" or line.rows is None or not np.isfinite(intake.low[size]):
                continue
            pleat = graded.written.pleats[intake.name]
            facts: dict[Fact, str | float] = {
                "name": intake.name,
                "edge": line.name,
                **facts_of_size(nest, size),
            }
            if pleat is not None and pleat.to is not None:
                facts["to"] = pleat.to
            ends = [float(intake.low[size]), float(intake.high[size])]
            at, outward = places_on(nest, graded, line, ends, size)
            for z, out in zip(at, outward, strict=True):
                yield Stroke(lines(np.array([z, z - PLEAT * out])), "pleat", facts=facts)
            to_high = pleat is not None and pleat.to == line.after
            tail, tip = (at[0], at[1]) if to_high else (at[1], at[0])
            down = -0.6 * PLEAT * outward.mean()
            for run in arrow(complex(tail + down), complex(tip + down), both=False):
                yield Stroke(run, "pleat", facts={**facts, "kind": "arrow"})


def grain_strokes(nest: Nest, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Stroke]:
    """The grainline with a head at either end, in the first of the sizes; in all of them where it turns from one to another."""
    found = {size: ends for size in sizes if (ends := _grain(nest, graded, size)) is not None}
    if not found:
        return
    angles = {size: float(np.degrees(np.angle(b - a))) for size, (a, b) in found.items()}
    turns = max(angles.values()) - min(angles.values()) > TURNS
    for size in found if turns else list(found)[:1]:
        facts: Facts = facts_of_size(nest, size) if turns else {}
        shaft, *heads = arrow(*found[size], both=True)
        yield Stroke(shaft, "grain", facts={**facts, "angle": angles[size]})
        yield from (Stroke(head, "grain", facts={**facts, "kind": "arrow"}) for head in heads)


def _grain(nest: Nest, graded: GradedPiece, size: int) -> tuple[complex, complex] | None:
    """Both ends of the lengthwise thread's line; of a strip as it states it, at three quarters of its length."""
    strip = graded.written.strip
    if graded.grainline is not None and np.isfinite(graded.grainline[size]).all():
        a, b = (complex(z) for z in graded.grainline[size])
    elif strip is not None and strip.grain in STRIP_ANGLES:
        length, width = (in_size(value, nest.sizes[size]) for value in (strip.length, strip.width))
        turn = np.exp(1j * np.radians(STRIP_ANGLES[strip.grain]))
        half = 0.35 * width * turn / max(abs(turn.imag), 0.5)
        middle = complex(0.75 * length, width / 2)
        a, b = complex(middle - half), complex(middle + half)
    else:
        return None
    return (a, b) if a != b else None


def mark_parts(nest: Nest, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Stroke | Dot | Text]:
    """A point in a cross for every mark, with its name; in every size where it moves from one to another."""
    for name, at in graded.marks.items():
        moves = np.ptp(at[list(sizes)].real) + np.ptp(at[list(sizes)].imag) > STILL
        mark = graded.written.marks[name]
        kind: Facts = {} if mark is None or mark.kind is None else {"kind": mark.kind}
        for size in sizes if moves else sizes[:1]:
            z = complex(at[size])
            facts: Facts = {"name": name, **(facts_of_size(nest, size) if moves else {})}
            yield Dot(z, "mark", {**facts, **kind})
            for arm in (CROSS, CROSS * 1j):
                yield Stroke(lines(np.array([z - arm, z + arm])), "mark", facts={**facts, "kind": "cross"})
        last = max((complex(z) for z in at[list(sizes if moves else sizes[:1])]), key=lambda z: z.real)
        beside = last + complex(CROSS + 1.0, -0.3 * MARK_TYPE)
        yield Text(beside, shortened(plain_name(name)), MARK_TYPE, "edge-name", facts={"name": name})


def fold_texts(nest: Nest, graded: GradedPiece, size: int, opened: Container[str] = ()) -> Iterator[Text]:
    """The words along every fold, inside the piece."""
    for fold in graded.folds:
        if fold in opened:
            continue
        line = graded.lines[fold]
        middle, outward = place_on(nest, graded, line, float(line.length[size]) / 2, size)
        at = inner_base(middle, outward, FOLD_TYPE, 2.0)
        facts: Facts = {"edge": fold, "kind": "fold"}
        yield Text(at, "place on fold", FOLD_TYPE, "note", "middle", reading_angle(outward), facts)


def arrow(a: complex, b: complex, both: bool) -> Iterator[NDArray[np.complex128]]:
    """A shaft from a to b (mm) and its head at b, or at both ends; each a run of cubics (k, 4)."""
    yield lines(np.array([a, b]))
    along = (b - a) / abs(b - a)
    head = min(HEAD, abs(b - a) / 3)
    for tip, way in ((b, along), (a, -along))[: 2 if both else 1]:
        wings = [tip - head * way * np.exp(1j * s * np.radians(22)) for s in (1, -1)]
        yield lines(np.array([wings[0], tip, wings[1]]))
