"""Signs on a piece: notches, darts, pleats, marks, the grain's arrow and the word at a fold."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.outlines import facts_of_size
from notchwork.draw.places import inner_base, place_on, reading_angle
from notchwork.drawing import Dot, Facts, Stroke, Text
from notchwork.findings import plain_name
from notchwork.geometry import lines
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.allowances import allowance
from notchwork.sewing.darts import darts_of

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
MARK_TYPE = 4.0
"""Height (mm) of the name beside a mark."""
CROSS = 3.0
"""mm: half the width of a mark's cross."""


def notch_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """A tick for every nick, across the stitch line and square to it."""
    for name, notch in graded.written.notches.items():
        if notch is None or (graded.id, name) not in nest.notches or notch.edge not in graded.lines:
            continue
        line = graded.lines[notch.edge]
        if line.rows is None or not np.isfinite(line.length[size]):
            continue
        depth = min(float(allowance(graded, notch.edge)[size]), OUTSIDE)
        count = NICKS[notch.kind]
        for k in range(count):
            step = (k - (count - 1) / 2) * (notch.spacing or SPACING)
            at, outward = place_on(
                nest, graded, line, float(nest.notches[graded.id, name][size]) + step, size
            )
            facts: Facts = {
                "name": name,
                "edge": notch.edge,
                "kind": notch.kind,
                "depth": depth,
                **facts_of_size(nest, size),
            }
            tick = np.array([at - INSIDE * outward, at + depth * outward])
            yield Stroke(lines(tick), "notch", facts=facts)


def dart_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """The legs of every dart."""
    for shape in darts_of(nest, [graded.id]):
        facts: Facts = {"name": shape.name, **facts_of_size(nest, size)}
        for leg in shape.legs[size]:
            if np.isfinite(leg).all():
                yield Stroke(leg[None, :], "dart", facts=facts)


def dart_dots(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Dot]:
    """The points of every dart."""
    for name, at in graded.apexes.items():
        for apex in at[size]:
            if np.isfinite(apex):
                yield Dot(complex(apex), "dart", {"name": name, **facts_of_size(nest, size)})


def pleat_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """Both folds of a pleat, and an arrow from the one that is laid to the one it is laid on."""
    for line in graded.lines.values():
        for intake in line.intakes:
            if intake.kind != "pleat" or line.rows is None or not np.isfinite(intake.low[size]):
                continue
            pleat = graded.written.pleats[intake.name]
            facts: Facts = {"name": intake.name, "edge": line.name, **facts_of_size(nest, size)}
            low, out_low = place_on(nest, graded, line, float(intake.low[size]), size)
            high, out_high = place_on(nest, graded, line, float(intake.high[size]), size)
            for at, outward in ((low, out_low), (high, out_high)):
                yield Stroke(lines(np.array([at, at - PLEAT * outward])), "pleat", facts=facts)
            to_high = pleat is not None and pleat.to == line.after
            tail, tip = (low, high) if to_high else (high, low)
            down = -0.6 * PLEAT * (out_low + out_high) / 2
            yield from (Stroke(s, "mark", facts=facts) for s in _arrow(tail + down, tip + down, both=False))


def grain_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """The grainline with a head at either end; on a strip as it states it, at three quarters of its length."""
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
        return
    if a != b:
        angle = float(np.degrees(np.angle(b - a)))
        for run in _arrow(a, b, both=True):
            yield Stroke(run, "grain", facts={"angle": angle})


def mark_parts(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke | Text]:
    """A cross with its name for every mark."""
    for name, at in graded.marks.items():
        z = complex(at[size])
        facts: Facts = {"name": name, **facts_of_size(nest, size)}
        for arm in (CROSS, CROSS * 1j):
            yield Stroke(lines(np.array([z - arm, z + arm])), "mark", facts=facts)
        yield Text(
            z + complex(CROSS + 1.0, -0.3 * MARK_TYPE), plain_name(name), MARK_TYPE, "edge-name", facts=facts
        )


def fold_texts(nest: Nest, graded: GradedPiece, size: int, height: float) -> Iterator[Text]:
    """The words along every fold, inside the piece."""
    for fold in graded.folds:
        line = graded.lines[fold]
        middle, outward = place_on(nest, graded, line, float(line.length[size]) / 2, size)
        at = inner_base(middle, outward, height, 2.0)
        yield Text(at, "place on fold", height, "note", "middle", reading_angle(outward), {"edge": fold})


def _arrow(a: complex, b: complex, both: bool) -> Iterator[NDArray[np.complex128]]:
    yield lines(np.array([a, b]))
    along = (b - a) / abs(b - a)
    head = min(HEAD, abs(b - a) / 3)
    for tip, way in ((b, along), (a, -along))[: 2 if both else 1]:
        wings = [tip - head * way * np.exp(1j * s * np.radians(22)) for s in (1, -1)]
        yield lines(np.array([wings[0], tip, wings[1]]))
