"""One piece in one size: lines first, then letters beside its edges, then the words where there is room left."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.pictures import ink
from notchwork.pictures.glance.bands import band, band_marks
from notchwork.pictures.glance.cloth import Cloth, Complexes, cloth
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.flags import Sign, of_thread, sign_marks, sign_spots
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.grain import grain_marks, grain_place
from notchwork.pictures.glance.off import Off
from notchwork.pictures.glance.rings import leader, pill, placed, taken_of, wide
from notchwork.pictures.glance.room import Room
from notchwork.pictures.glance.tear import tear_marks, tears_at
from notchwork.pictures.glance.words import Line, below_words, blocks, edge_says, extent
from notchwork.pictures.lettering import lines
from notchwork.pictures.signs import SMALL as SIDE
from notchwork.pictures.tokens import edge_token, token
from notchwork.pictures.trail import trail
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.cutlines import CutLine

REACH = 24.0
"""px: the width of the stretch along an edge that can be tapped; less on narrow pieces."""
COARSE = 1.0
"""px: how far that stretch may lie off."""
FOLD_OFF = 9.0
"""px from a fold to the middle of the word beside it."""
FOLD_WORD = (24.0, 11.0)
"""px: about how long and high the word is."""
BESIDE = 4.0
"""px from a piece to the words that found no room on it."""
FIGURE = (200.0, 75.0)
"""px that words of how much is off may be wide: on one line, or broken."""
GAP = 2.5
"""px that words keep from everything on the piece."""


def drawn_piece(
    nest: Nest, graded: GradedPiece, size: int, frame: Frame, cut: CutLine | None, look: Look
) -> Drawn:
    """A piece with a shape, in a size in which it exists."""
    there = cloth(nest, graded, size, frame, cut)
    found = Drawn(graded.id, there.ring)
    room = Room(there.ring)
    for line in (
        *there.folds.values(),
        *there.notches,
        *there.takes,
        *there.inner.values(),
        *there.cutouts.values(),
    ):
        room.take_line(line)
    for mark in there.marks:
        room.take(mark, 6.0, 6.0)
    for line in (there.ring, *there.folds.values(), *(() if there.cut is None else (there.cut,))):
        found.reaches(line, 1.0)
    found.foot = found.high.imag
    offs = look.off.get(graded.id, ())
    found.bands = [(off, band(nest, graded, off, size, frame)) for off in offs]
    for _, polygon in found.bands:
        room.take_line(np.append(polygon, polygon[0]))
        found.reaches(polygon, 1.0)
    found.marks += _under(there, look.textures.get(_material(graded), ""))
    for x in tears_at(frame):
        room.take(complex(x, float(there.ring.imag.mean())), 10.0, float(np.ptp(there.ring.imag)))
    folds = [_fold_word(line, there.ring) for line in there.folds.values()]
    for middle, turned in folds:
        far, tall = FOLD_WORD if not turned else FOLD_WORD[::-1]
        room.take(middle, far, tall)
    _letters(nest, graded, size, frame, look, room, found)
    found.signs = list(sign_spots(nest, graded, look.told.get(graded.id, ()), size, frame, room))
    for put in found.signs:
        if put.middle is not None:
            found.reaches(np.array([put.middle]), SIDE / 2 + 1)
    lines_at = len(found.marks)
    for middle, turned in folds:
        far, tall = FOLD_WORD if not turned else FOLD_WORD[::-1]
        found.covers(middle - complex(far, tall) / 2, middle + complex(far, tall) / 2)
        base = middle + (complex(4, 0) if turned else complex(0, 4))
        found.marks.append(ink.text(base.real, base.imag, "fold", "muted", "mid", -90.0 if turned else 0.0))
    _written(nest, graded, size, look, room, found, there)
    found.marks[lines_at:lines_at] = [
        *_edges(nest, graded, size, there, look, found),
        *tear_marks(frame, there),
    ]
    found.marks += map(sign_marks, found.signs)
    return found


def _material(graded: GradedPiece) -> str:
    return next((m for cut in graded.written.cut or () for m in cut.materials), "")


def _under(there: Cloth, texture: str) -> Iterator[str]:
    """The allowance with the cloth on it, and the lines that no one points at."""
    if there.cut is not None:
        around = trail(there.cut, closed=True)
        yield ink.path(around, "margin")
        if texture:
            yield ink.path(around, texture)
    yield ink.path(trail(there.ring, closed=True), "cloth")
    if there.takes:
        yield ink.path("".join(trail(points) for points in there.takes), "tick")
    for z in there.marks:
        x, y = ink.n(z.real - 2.5), ink.n(z.imag)
        yield ink.path(f"M{x} {y}h5m-2.5-2.5v5", "tick")


def _letters(
    nest: Nest, graded: GradedPiece, size: int, frame: Frame, look: Look, room: Room, found: Drawn
) -> None:
    for taken in taken_of(nest, graded, look.sewn[graded.id], size, frame):
        inner = graded.lines[taken.line].kind != "edge"
        ring = placed(taken, look.letters[taken.seam], room, inner)
        if ring is None:
            found.unplaced.append(taken.seam)
            continue
        found.rings.append(ring)
        half = complex(wide(ring.letter) / 2 + 1, 9)
        found.reaches(np.array([ring.middle - half, ring.middle + half]))


def _edges(
    nest: Nest, graded: GradedPiece, size: int, there: Cloth, look: Look, found: Drawn
) -> Iterator[str]:
    """Every line that can be pointed at, with its boxes and letters."""
    reach = float(np.clip(min(np.ptp(there.ring.real), np.ptp(there.ring.imag)) / 3, 8.0, REACH))
    stitched = graded.written.outline_is is None
    seams: dict[str, list[str]] = {}
    for ring in found.rings:
        seams.setdefault(ring.line, []).append(ring.seam)
    for seam, stretch in look.sewn[graded.id]:
        if seam in found.unplaced:
            seams.setdefault(stretch.line.name, []).append(seam)
    kinds = {
        **dict.fromkeys(there.edges, "stitch" if stitched else "cut"),
        **dict.fromkeys(there.inner, "inner"),
        **dict.fromkeys(there.cutouts, "cut"),
        **dict.fromkeys(there.folds, "fold"),
    }
    for name, points in {**there.edges, **there.inner, **there.cutouts, **there.folds}.items():
        d, about, mine = trail(points), trail(points, within=COARSE), list(dict.fromkeys(seams.get(name, ())))
        offs = [off for off, _ in found.bands if off.line == name]
        marks = [
            f'<path class="reach" stroke-width="{ink.n(reach)}" d="{about}"/>' if about else "",
            *(band_marks(off, polygon) for off, polygon in found.bands if off.line == name),
            ink.path(d, f"{kinds[name]} line"),
        ]
        rings = [ring for ring in found.rings if ring.line == name]
        marks += [leader(ring.middle, ring.leader) for ring in rings]
        for ring in rings:
            marks += pill(ring.middle, ring.letter, ring.seam in look.fills)
        labels = [(seam, look.letters[seam], seam in look.fills) for seam in mine]
        says = edge_says(look.names, graded, name, size, labels, offs)
        data = {
            "edges": edge_token(graded.id, name),
            **({"seam": " ".join(map(token, mine))} if mine else {}),
        }
        yield ink.group(marks, says, data)
    if there.notches:
        yield ink.path("".join(trail(points) for points in there.notches), "pin")


def _fold_word(line: Complexes, ring: Complexes) -> tuple[complex, bool]:
    """Where the word stands beside a fold, off the cloth, and whether it is turned upright."""
    middle, along = complex(line.mean()), complex(line[-1] - line[0])
    out = along * 1j / abs(along) if along else -1 + 0j
    if ((complex(ring.mean()) - middle) * out.conjugate()).real > 0:
        out = -out
    return middle + FOLD_OFF * out, abs(out.real) > abs(out.imag)


def _written(
    nest: Nest, graded: GradedPiece, size: int, look: Look, room: Room, found: Drawn, there: Cloth
) -> None:
    """The name with copies and material, the grain, and how much is off: on the piece, else below it."""
    below: list[Line] = []
    grain = there.grain
    # An arrow that has a sign goes before the words, so that it stays beside it.
    shaft = grain_place(grain, room) if grain is not None and any(map(of_thread, found.signs)) else None
    if shaft is not None:
        room.take_line(np.array(shaft))
        grain = None
    rooms = ([room.with_line(np.array(grain))] if grain is not None else []) + [room]
    named = next((put for put in found.signs if put.middle is None), None)
    block, rest, middle = next(
        (
            (block, rest, middle)
            for block, rest in blocks(nest, graded, size)
            for tried in rooms
            if (middle := tried.roomiest(*_with_sign(block, named), GAP)) is not None
        ),
        ([], below_words(nest, graded, size), 0j),
    )
    if block:
        found.writes(block, middle, extent(block))
        _beside_name(named, block, middle, found)
        room.take(middle, *_with_sign(block, named))
    below += rest
    if grain is not None and (shaft := grain_place(grain, room)) is not None:
        room.take_line(np.array(shaft))
    if shaft is not None:
        found.marks += grain_marks(*shaft)
    for off, polygon in found.bands:
        if off.words:
            below += _figure(off, look.letters[off.seam], complex(polygon.mean()), room, found)
    if below:
        far, tall = extent(below)
        middle = complex(
            (there.ring.real.min() + there.ring.real.max()) / 2, found.high.imag + BESIDE + tall / 2
        )
        found.writes(below, middle, (far, tall))
        if not block:
            _beside_name(named, below, middle, found)


def _with_sign(block: list[Line], sign: Sign | None) -> tuple[float, float]:
    """The extent of a block whose first line may have a sign beside it."""
    far, tall = extent(block)
    return (far, tall) if sign is None else (max(far, extent(block[:1])[0] + 2 * (SIDE + BESIDE)), tall)


def _beside_name(sign: Sign | None, block: list[Line], middle: complex, found: Drawn) -> None:
    """The sign of what is told of the whole piece, before the first line of its words."""
    if sign is not None:
        (far, first), (_, tall) = extent(block[:1]), extent(block)
        sign.middle = middle - complex(far / 2 + BESIDE + SIDE / 2, (tall - first) / 2)
        found.reaches(np.array([sign.middle]), SIDE / 2 + 1)


def _figure(off: Off, letter: str, near: complex, room: Room, found: Drawn) -> list[Line]:
    """How much is off, beside its box; the words with the seam's letter where there is no room."""
    places: list[tuple[float, complex, list[Line]]] = []
    for most in FIGURE:
        block: list[Line] = [(words, "figure") for words in lines(off.words, most, 14.0, bold=True)]
        middle = room.nearest(near, *extent(block), GAP)
        if middle is not None:
            places.append((abs(middle - near), middle, block))
    if not places:
        return [(f"{letter}: {off.words}", "figure")]
    _, middle, block = min(places, key=lambda place: place[0])
    found.writes(block, middle, extent(block))
    room.take(middle, *extent(block))
    return []
