"""One corner drawn: both cloths, the seam, the edges, what is off between an edge and the line it should follow."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import Length, worded
from notchwork.pictures import ink
from notchwork.pictures.corner.found import Corner
from notchwork.pictures.corner.laid import Laid
from notchwork.pictures.corner.view import HALF, SCALES, View, view
from notchwork.pictures.corner.words import Words
from notchwork.pictures.lettering import lines, short, width
from notchwork.pictures.picture import Part, Picture
from notchwork.pictures.signs import SIDE as SIGN
from notchwork.pictures.signs import sign
from notchwork.pictures.tokens import edge_token, token
from notchwork.pictures.trail import thinned

Complexes = NDArray[np.complex128]

WIDE, SIDE = 344.0, 8.0
HEAD, TEXT, LABEL = 14.0, 12.0, 11.0
"""px: heights of type."""
LEADING = 16.0
GAP = 8.0
"""px between two words at least."""
TARGET = 24
"""px that an edge is wide for a finger."""
SEEN = 0.01
"""px: a line that runs on more nearly straight than this is straight."""


def card(key: str, corner: Corner, there: Laid, words: Words) -> Picture:
    """The picture of one corner in the size that it is shown in."""
    seen = view(corner, there, words.lies == "up")
    head, y = _head(corner, seen, words)
    above, below = seen.reach
    labels, up, down = _edge_labels(seen, words)
    base = y + max(above, up)
    drawing = ink.moved([*_drawn(corner, seen, words), *labels, *_names(seen, words)], WIDE / 2, base)
    foot, bottom = _foot(seen, words, base + max(below, down))
    whole = Part(bottom, "".join((*head, drawing, *foot)))
    return Picture(key, WIDE, [whole], words.title, words.says(seen.leaves))


def _head(corner: Corner, seen: View, words: Words) -> tuple[list[str], float]:
    """The sign, the title and the size, then the sentences; and where the drawing may begin."""
    x = SIDE + SIGN + GAP
    room = WIDE - SIDE - x - (width(words.size, LABEL) + GAP if words.size else 0.0)
    marks = [sign(corner.severity, SIDE + SIGN / 2, 16.0)]
    y = 5.0
    for line in lines(words.title, room, HEAD, bold=True)[:2]:
        y += LEADING
        marks.append(ink.text(x, y, line, "head"))
    if words.size:
        marks.append(ink.text(WIDE - SIDE, 21.0, words.size, "muted", "end"))
    y += 4.0
    for line in lines(" ".join(words.sentences(seen.leaves)), WIDE - 2 * SIDE, TEXT):
        y += LEADING
        marks.append(ink.text(SIDE, y, line))
    return marks, y + 12.0


def _drawn(corner: Corner, seen: View, words: Words) -> Iterator[str]:
    off = corner.is_off
    for kind, area in zip(("two", "one"), reversed(seen.cloths), strict=True):
        yield ink.path(_trail(area, closed=True), kind)
    yield ink.path(_net(seen, words), "net")
    if off:
        yield from (ink.path(_trail(area, closed=True), "hatch") for area in seen.between)
    yield from (ink.path(_trail(dart), "stitches") for dart in seen.darts)
    yield ink.path(_trail(seen.seam), "fold" if corner.end == "fold" else "stitches")
    for number, edge in enumerate(seen.edges):
        d = _trail(edge)
        reach = f'<path class="reach" stroke-width="{TARGET}" d="{d}"/>'
        data = {"edges": edge_token(*corner.edges[number])}
        if corner.seam is not None:
            data["seam"] = token(corner.seam)
        yield ink.group([ink.path(d, "edge line"), reach], words.edge_says(number), data)
    if off or corner.bent is not None:
        yield from (ink.path(_trail(line), "cross" if off else "on") for line in seen.wanted)


def _names(seen: View, words: Words) -> Iterator[str]:
    """The pieces at both sides, as far from their edges as there is cloth, and the seam beside its line."""
    above, below = seen.reach
    first, second = (below - 7.0, below - 23.0) if seen.flipped else (-above + 15.0, -above + 31.0)
    room = HALF - 2 * GAP
    lean = _leaning(seen.seam, first)
    for name, x, anchor, free in (
        (words.pieces[0], -HALF + 6.0, "start", room + lean),
        (words.pieces[1], HALF - 6.0, "end", room - lean),
    ):
        said = next(iter(lines(_narrow(name, free), free, TEXT, bold=True)), "")
        yield ink.text(x, first, said, "strong named", "start" if anchor == "start" else "end")
    beside = _leaning(seen.seam, second) + 6.0
    sewn = f"{words.seam}, sewn" if words.is_sewn else words.fold
    yield ink.text(beside, second, _narrow(sewn, HALF - 4.0 - beside, LABEL), "muted named")


def _edge_labels(seen: View, words: Words) -> tuple[list[str], float, float]:
    """The names of the edges on the paper beside them; and how far up and down (px) they reach."""
    marks: list[str] = []
    names = words.edges
    far = 0.0
    for number, name in enumerate(names):
        said = _narrow(name, HALF - 2 * GAP, LABEL)
        long = width(said, LABEL) + GAP
        near = [
            part
            for line in (*seen.edges, *seen.wanted)
            if len(
                part := line.imag[(line.real < -HALF + long) if number == 0 else (line.real > HALF - long)]
            )
        ]
        ys = np.concatenate(near) if near else np.zeros(1)
        y = float(ys.min()) - 7.0 if seen.flipped else float(ys.max()) + 14.0
        marks.append(
            ink.text(-HALF if number == 0 else HALF, y, said, "muted", "start" if number == 0 else "end")
        )
        far = max(far, LABEL - y if seen.flipped else y + 3.0)
    return marks, far if seen.flipped else 0.0, 0.0 if seen.flipped else far


def _foot(seen: View, words: Words, y: float) -> tuple[list[str], float]:
    """The scale bar, and how much is off at the right; and where the picture ends."""
    y += 20.0
    cell = seen.cell(words.unit)
    long = cell * seen.scale
    said = f"{worded('{cell}', {'cell': Length(cell)}, words.unit).replace('.0 ', ' ')} ({SCALES[seen.enlarged]})"
    marks = [
        ink.path(f"M{ink.n(SIDE)} {ink.n(y - 7)}v6h{ink.n(long)}v-6", "tick"),
        ink.text(SIDE + long + GAP, y, said, "muted"),
    ]
    room = WIDE - 2 * SIDE - long - 3 * GAP - width(said, LABEL)
    for number, (figure, off) in enumerate(words.figures()):
        y += LEADING + 2.0 if number or width(figure, HEAD, bold=True) > room else 0.0
        marks.append(ink.text(WIDE - SIDE, y, figure, "figure" if off else "strong", "end"))
    return marks, y + 10.0


def _net(seen: View, words: Words) -> str:
    """Squares about the corner, as far as anything is drawn."""
    step = seen.cell(words.unit) * seen.scale
    above, below = seen.reach
    across = np.arange(-int(HALF / step), int(HALF / step) + 1) * step
    down = np.arange(-int(above / step), int(below / step) + 1) * step
    return "".join(
        (
            *(f"M{ink.n(x)} {ink.n(-above)}V{ink.n(below)}" for x in across.tolist()),
            *(f"M{ink.n(-HALF)} {ink.n(y)}H{ink.n(HALF)}" for y in down.tolist()),
        )
    )


def _leaning(seam: Complexes, y: float) -> float:
    """How far right of the corner (px) a seam stands at a height."""
    heights = np.maximum.accumulate(np.abs(seam.imag))
    return float(np.interp(abs(y), heights, seam.real))


def _narrow(name: str, room: float, size: float = TEXT) -> str:
    """A name cut off so that it fits."""
    letters = len(name)
    while letters > 1 and width(short(name, letters), size, size == TEXT) > room:
        letters -= 1
    return short(name, letters)


def _trail(points: Complexes, closed: bool = False) -> str:
    """Path data along points (px)."""
    if len(points) < 2:
        return ""
    places = "L".join(f"{ink.n(z.real)} {ink.n(z.imag)}" for z in thinned(points, SEEN).tolist())
    return f"M{places}{'Z' if closed else ''}"
