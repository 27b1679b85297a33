"""Small patterns, drafted line by line as documents, and what the commands' reports say of them.

Points are complex numbers x + iy in the document's unit; a line is a list of cubics (start, handle, handle, end).
"""

from __future__ import annotations

import cmath
import itertools
import math
from collections.abc import Callable
from typing import Any

Document = dict[str, Any]
Cubic = tuple[complex, complex, complex, complex]
MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}


def line(*points: complex) -> list[Cubic]:
    """Straight from point to point."""
    return [(a, a, b, b) for a, b in itertools.pairwise(points)]


def arc(radius: float, start: float, stop: float, center: complex = 0j, step: float = 15.0) -> list[Cubic]:
    """Part of a circle from one angle (degrees) to another, in cubics of at most ``step`` degrees.

    At 15 degrees a cubic is nearer to the circle than 1e-8 of its radius.
    """
    count = max(1, math.ceil(abs(stop - start) / step))
    turn = math.radians((stop - start) / count)
    reach = 4 / 3 * math.tan(turn / 4) * 1j
    cubics = []
    for k in range(count):
        a, b = (
            radius * cmath.exp(1j * angle)
            for angle in (math.radians(start) + turn * k, math.radians(start) + turn * (k + 1))
        )
        cubics.append((center + a, center + a + reach * a, center + b - reach * b, center + b))
    return cubics


def backward(cubics: list[Cubic]) -> list[Cubic]:
    """The same line from its end to its start."""
    return [(d, c, b, a) for a, b, c, d in reversed(cubics)]


def outline(**edges: list[Cubic]) -> list[Document]:
    """The nodes of a closed outline, edge by edge in order."""
    cubics = [(name if k == 0 else None, cubic) for name, run in edges.items() for k, cubic in enumerate(run)]
    nodes = []
    for k, (name, (start, out, _, _)) in enumerate(cubics):
        _, _, into, stop = cubics[k - 1][1]
        assert abs(stop - start) < 1e-6, f"{name} does not start where the edge before it ends"
        node: Document = {"at": xy(start)}
        if into != stop:
            node["in"] = xy(into)
        if out != start:
            node["out"] = xy(out)
        if name is not None:
            node["edge"] = name
        nodes.append(node)
    return nodes


def xy(point: complex) -> list[float]:
    return [point.real, point.imag]


def box(width: float, height: float, start: complex = 0j) -> list[Document]:
    """A rectangle with the edges lower, end, upper and start, counter-clockwise from its lower left."""
    a, b, c, d = (start + z for z in (0, width, complex(width, height), 1j * height))
    return outline(lower=line(a, b), end=line(b, c), upper=line(c, d), start=line(d, a))


def sector(radius: float, degrees: float, length: float) -> list[Document]:
    """A skirt panel that is part of a circle: waist at ``radius``, hem ``length`` further out.

    Its edges: side, hem, other_side, waist.
    """
    tip = cmath.exp(1j * math.radians(degrees))
    return outline(
        side=line(radius, radius + length),
        hem=arc(radius + length, 0, degrees),
        other_side=line((radius + length) * tip, radius * tip),
        waist=arc(radius, degrees, 0),
    )


def tape(**lengths: float) -> Document:
    """A piece of which only the lengths of its edges are known, measured by tape."""
    return {"edges": {name: {"length": length} for name, length in lengths.items()}}


def pattern(pieces: Document, unit: str = "mm", **more: Any) -> Document:
    """A document: one of each piece that says nothing else is cut from the one cloth there is."""
    return {
        "notchwork": "1.0",
        "unit": unit,
        "materials": {"cloth": {}},
        "pieces": {
            name: piece if "cut" in piece else piece | {"cut": [{"material": "cloth", "count": 1}]}
            for name, piece in pieces.items()
        },
        **more,
    }


def seam(one: list[Any], other: list[Any], **join: Any) -> Document:
    """A seam of two sides; how the second relates to the first, if it is not plain."""
    return {"sides": [one, {"spans": other, "join": join} if join else other]}


class Report:
    """What a command said of a pattern, as printed with ``--format json``."""

    def __init__(self, printed: Document) -> None:
        self.printed = printed

    def piece(self, name: str, size: str | None = None) -> Document:
        """The figures of one piece."""
        return one(p for p in self.printed["pieces"] if (p["id"], p["size"]) == (name, size))

    def length(self, piece: str, edge: str, size: str | None = None) -> float:
        """The length (mm) of an edge as drawn."""
        return float(one(e for e in self.piece(piece, size)["edges"] if e["name"] == edge)["length"])

    def sewn(self, piece: str, edge: str, size: str | None = None) -> float:
        """The length (mm) of an edge as sewn, darts and pleats taken out."""
        return float(one(e for e in self.piece(piece, size)["edges"] if e["name"] == edge)["sewn"])

    def seam(self, name: str, size: str | None = None) -> Document:
        """The figures of one seam."""
        return one(s for s in self.printed["seams"] if (s["id"], s["size"]) == (name, size))

    def findings(self, check: str) -> list[Document]:
        """What one check, or one family of checks, found. It must have run."""

        def asked_for(ident: str) -> bool:
            return ident == check or ident.startswith(f"{check}/")

        assert any(asked_for(ident) for ident in self.printed["checked"]["checks"]), f"no check {check}"
        return [f for f in self.printed["findings"] if asked_for(f["check"])]


Command = Callable[[Document], Report]
"""A command run on a document."""


def one(found: Any) -> Document:
    """The only thing there is."""
    (only,) = found
    result: Document = only
    return result
