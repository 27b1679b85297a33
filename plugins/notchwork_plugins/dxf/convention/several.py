"""Blocks with several boundaries: those inside another are cut out, those beside it are pieces of their own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.geometry import inside
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.outline import distance
from notchwork_plugins.dxf.convention.rings import enclosed
from notchwork_plugins.dxf.convention.sheet import Complexes, Line, Sheet
from notchwork_plugins.dxf.convention.told import SEVERAL, Told


def parted(sheet: Sheet, told: Told) -> Iterator[Sheet]:
    """The pieces of a block, most often one. A second one has the block's name with a number."""
    rings = sorted(
        (line for line in sheet.on(layers.BOUNDARY) if line.closed), key=lambda line: -abs(enclosed(line))
    )
    if len(rings) < 2:
        yield sheet
        return
    pieces: list[Line] = []
    holes: set[int] = set()
    for line in rings:
        if any(inside(piece.z, line.z).mean() > 0.5 for piece in pieces):
            holes.add(id(line))
            told.at_line(
                SEVERAL,
                "A boundary inside another in block “{name}” is taken as cut out ({things}).",
                line.line,
                name=sheet.name,
            )
        else:
            pieces.append(line)
    lines = [replace(line, layer=layers.CUT_OUTS) if id(line) in holes else line for line in sheet.lines]
    if len(pieces) == 1:
        yield replace(sheet, lines=tuple(lines))
        return

    def home(z: Complexes) -> int:
        within = [float(inside(piece.z, z).mean()) for piece in pieces]
        if max(within) > 0.0:
            return int(np.argmax(within))
        return int(
            np.argmin([min(distance(np.append(p.z, p.z[:1]), at) for at in z.tolist()) for p in pieces])
        )

    def at_home(z: complex, number: int) -> bool:
        return home(np.array([z])) == number

    for number, piece in enumerate(pieces):
        if number:
            told.at_line(
                SEVERAL,
                "A second boundary in block “{name}” is taken as a piece of its own ({things}).",
                piece.line,
                name=sheet.name,
            )
        stated = dict(sheet.stated)
        if number and "piece" in stated:
            stated["piece"] = tuple(f"{value} {number + 1}" for value in stated["piece"])
        yield replace(
            sheet,
            name=_numbered(sheet.name, number),
            ident=None if number else sheet.ident,
            lines=tuple(
                line for line in lines if line is piece or (line not in pieces and home(line.z) == number)
            ),
            spots=tuple(spot for spot in sheet.spots if at_home(spot.at, number)),
            words=tuple(words for words in sheet.words if at_home(words.at, number)),
            rules=tuple(rule for rule in sheet.rules if at_home(rule[0], number)),
            stated=stated,
        )


def _numbered(name: str, number: int) -> str:
    if not number:
        return name
    start, hyphen, end = name.rpartition("-")
    return f"{start}_{number + 1}-{end}" if hyphen and start else f"{name}_{number + 1}"
