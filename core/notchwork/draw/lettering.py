"""What is written on a piece, and where it finds room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.places import inner_base, place_on, points_on, reading_angle
from notchwork.drawing import Stroke, Text
from notchwork.findings import plain_name
from notchwork.geometry import bounds, lengths, points
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.allowances import allowance
from notchwork.sewing.inside import outside_by

Complexes = NDArray[np.complex128]

NAME, NOTE, EDGE, SIZE = 9.0, 5.5, 4.0, 5.0
"""Heights of type in mm."""
ABOVE = 18.0
"""mm above the outline at which words stand that found no room inside."""
SHARES = (0.5, 1 / 3, 2 / 3, 0.25, 0.75)
"""Where along an edge its name may stand, the best first."""
LEVEL = 10.0
"""mm to either side that a line of words is laid level with."""
LEADING = 1.35
GRID = 15
"""Places tried across a piece either way."""
SCALES = (1.0, 0.75, 0.5)
ALMOST = 0.5
"""mm that words keep from every line."""


def piece_texts(
    nest: Nest, graded: GradedPiece, size: int, lines: Iterable[Stroke], words: Iterable[Text]
) -> tuple[Text, ...]:
    """The name of a piece with its cut order: where there is most room between lines and other words, else above it."""
    said = [graded.name, *_cut_words(nest, graded, size)]
    outline = nest.outline(graded.id, size)
    taken = np.concatenate(
        [
            *(_beads(line.cubics) for line in lines),
            *(np.array(text.box) for text in words),
            np.zeros(0, complex),
        ]
    )
    for scale in SCALES:
        heights = [scale * NAME, *[scale * NOTE] * (len(said) - 1)]
        at = _room(outline, taken, *_extent(said, heights))
        if at is not None:
            return _block(said, heights, at, middle=True)
    low, high = bounds(outline)
    heights = [0.75 * NAME, *[0.75 * NOTE] * (len(said) - 1)]
    _, tall = _extent(said, heights)
    return _block(said, heights, complex(low.real, high.imag + ABOVE + tall / 2), middle=False)


def edge_texts(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Text]:
    """The name of every edge along it, inside the piece, where the edge is long enough."""
    for edge in graded.edges:
        line = graded.lines[edge]
        words, length = plain_name(edge), float(line.length[size])
        wide = float(abs(Text(0j, words, EDGE).box[1] - Text(0j, words, EDGE).box[0]))
        if edge in graded.folds or wide > 0.7 * length:
            continue
        arc = next((s * length for s in SHARES if _is_free(nest, graded, line, s * length, wide)), length / 2)
        at, outward = place_on(nest, graded, line, arc, size, LEVEL)
        angle = reading_angle(outward)
        base = inner_base(at, outward, EDGE, 1.2)
        yield Text(base, words, EDGE, "edge-name", "middle", angle, {"edge": edge})


def _is_free(nest: Nest, graded: GradedPiece, line: Line, arc: float, wide: float) -> bool:
    """Whether words of a width (mm) about a place keep clear of darts, pleats and notches in every size."""
    notches = [
        nest.notches[graded.id, name]
        for name, notch in graded.written.notches.items()
        if notch is not None and notch.edge == line.name
    ]
    taken = [(intake.low, intake.high) for intake in line.intakes] + [(at, at) for at in notches]
    half = wide / 2 + 5.0
    return not any(bool(np.any((low - half < arc) & (arc < high + half))) for low, high in taken)


def size_texts(nest: Nest, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Text]:
    """The name of each size on its own cut line, along the edge where the sizes lie furthest apart."""
    if len(sizes) < 2:
        return

    def middle(edge: str, size: int) -> complex:
        line = graded.lines[edge]
        return complex(points_on(nest, line, [float(line.length[size]) / 2], size)[0])

    spread = {
        edge: abs(middle(edge, sizes[0]) - middle(edge, sizes[-1]))
        for edge in graded.edges
        if edge not in graded.folds
    }
    if not spread or max(spread.values()) < 0.5:
        return
    edge = max(spread, key=lambda name: spread[name])
    line = graded.lines[edge]
    for k, size in enumerate(sizes):
        share = 0.45 + 0.4 * (k + 0.5) / len(sizes)
        at, outward = place_on(nest, graded, line, share * float(line.length[size]), size, LEVEL)
        at += float(allowance(graded, edge)[size]) * outward
        angle = reading_angle(outward)
        down = -0.35 * SIZE * 1j * np.exp(1j * np.radians(angle))
        words = str(nest.sizes[size])
        yield Text(
            complex(at + down), words, SIZE, "size-name", "middle", angle, {"edge": edge, "size": words}
        )


def _cut_words(nest: Nest, graded: GradedPiece, size: int) -> Iterator[str]:
    for cut in graded.written.cut or ():
        stuff = [
            nest.pattern.materials[m].name or plain_name(m)
            for m in cut.materials
            if m in nest.pattern.materials
        ]
        how = ", on the fold" if graded.folds else ", in pairs" if cut.mirrored else ""
        other = ", turned over" if cut.hand == "mirrored" else ""
        yield f"{in_size(cut.count, nest.sizes[size]):g} × {' with '.join(stuff) or 'cut'}{how}{other}"


def _extent(words: Sequence[str], heights: Sequence[float]) -> tuple[float, float]:
    wide = max(
        abs(Text(0j, w, h).box[1] - Text(0j, w, h).box[0]) for w, h in zip(words, heights, strict=True)
    )
    return float(wide), sum(LEADING * h for h in heights)


def _room(outline: Complexes, taken: Complexes, wide: float, tall: float) -> complex | None:
    """The middle of the place for a box that is furthest from the outline and from what is drawn; None if there is none."""
    low, high = bounds(outline)
    x = np.linspace(low.real, high.real, GRID + 2)[1:-1]
    y = np.linspace(low.imag, high.imag, GRID + 2)[1:-1]
    middle = (x[None, :] + 1j * y[:, None]).ravel()
    rim = np.array([complex(a * wide / 2, b * tall / 2) for a in (-1, -0.5, 0, 0.5, 1) for b in (-1, 0, 1)])
    around = middle[:, None] + rim[None, :]
    free = -outside_by(outline, around.ravel()).reshape(around.shape).max(axis=1)
    if len(taken):
        off = taken[None, :] - middle[:, None]
        apart = np.maximum(np.abs(off.real) - wide / 2, np.abs(off.imag) - tall / 2).min(axis=1)
        free = np.minimum(free, apart)
    best = int(np.argmax(free))
    return complex(middle[best]) if free[best] > ALMOST else None


def _beads(cubics: Complexes) -> Complexes:
    """Points along a run, no further apart than words are high."""
    count = np.ceil(lengths(cubics) / (0.5 * NOTE)).astype(np.intp) + 1
    rows = np.repeat(np.arange(len(cubics)), count)
    step = np.arange(len(rows)) - np.repeat(np.cumsum(count) - count, count)
    return points(cubics, rows, step / (count[rows] - 1).clip(1))


def _block(words: Sequence[str], heights: Sequence[float], at: complex, middle: bool) -> tuple[Text, ...]:
    wide, tall = _extent(words, heights)
    left = at.real - wide / 2 if middle else at.real
    base, texts = at.imag + tall / 2, []
    for k, (word, height) in enumerate(zip(words, heights, strict=True)):
        base -= LEADING * height
        texts.append(Text(complex(left, base + 0.3 * height), word, height, "name" if k == 0 else "note"))
    return tuple(texts)
