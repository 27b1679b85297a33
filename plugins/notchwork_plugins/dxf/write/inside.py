"""What is drawn on a piece: notches, lines inside it, darts and marks, each with its name where the convention has no place for it
but a text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Stroke
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.write.alike import lines_alike
from notchwork_plugins.dxf.write.chords import Vertices
from notchwork_plugins.dxf.write.graded import Sized
from notchwork_plugins.dxf.write.items import Item, Line, Spot, Words
from notchwork_plugins.dxf.write.notches import nick
from notchwork_plugins.dxf.write.options import Choices
from notchwork_plugins.dxf.write.runs import Part

Complexes = NDArray[np.complex128]

LABEL = 4.0
"""mm: the height of names beside lines."""
INNER = {
    "casing": "CASING",
    "pleat": "PLEAT",
    "fold-back": "FOLD BACK",
    "placement": "PLACEMENT",
    "topstitch": "TOPSTITCH",
    "slash": "SLASH",
    "inner": "LINE",
    "opened": "LINE",
    "cut": "CUT OUT",
}
"""What stands before the name of a line inside a piece."""


def label(key: str, name: object, z: Complexes, **more: object) -> Words:
    """The name of a thing, anchored on it, and what else a reader would have to guess: "NOTCH: hip | use=place"."""
    said = "".join(f" | {key}={value}" for key, value in more.items() if value is not None)
    return Words(layers.ANNOTATION, z, f"{key}: {name}{said}", LABEL)


def notches(sized: Sized, boundary: Vertices, choices: Choices) -> Iterator[Item]:
    """One place for every nick of a notch; the name stands at the first."""
    named: set[object] = set()
    for facts, drawn in sized.strokes("notch"):
        z, depth, angle = sized.nowhere(), np.zeros(len(sized.sizes)), np.zeros(len(sized.sizes))
        for k, stroke in drawn.items():
            z[k], depth[k], angle[k] = nick(stroke, boundary.z[k])
        yield Spot(choices.notch_layer, z, depth, angle)
        called = facts.get("name"), facts.get("copy")
        if called not in named and "name" in facts:
            named.add(called)
            yield label("NOTCH", _named(facts), z, use=facts.get("use"))


def inner_lines(sized: Sized, chord: float) -> Iterator[Item]:
    """Lines inside the piece and cut-outs, each with its name at its start; a fold that is opened out is one of them."""
    for facts, drawn in sized.strokes(*INNER):
        one = next(iter(drawn.values()))
        cut_out, name = one.meaning == "cut", facts.get("name", facts.get("edge"))
        if name is None or (cut_out and facts.get("kind") != "cutout"):
            continue
        parts = {k: [Part("", stroke.cubics)] for k, stroke in drawn.items()}
        for line in lines_alike(sized, parts, one.closed, chord, f"the line {name}"):
            yield Line(layers.CUT_OUTS if cut_out else layers.INTERNAL, line.z, line.closed)
            yield from _labels(sized, drawn, line.z[:, 0])


def _labels(sized: Sized, drawn: Mapping[int, Stroke], z: Complexes) -> Iterator[Words]:
    """The name of a line at its start, with what is the width of a casing or the edge it runs along; each time for the sizes in which
    that is the same."""
    said: dict[str, Words] = {}
    for k, stroke in drawn.items():
        facts = stroke.facts
        along = facts.get("edge") if "depth" in facts or stroke.meaning == "pleat" else None
        own = label(
            INNER[str(stroke.meaning)],
            _named(facts),
            sized.nowhere(),
            to=facts.get("to"),
            edge=along,
            depth=_short(facts.get("depth")),
            width=_short(facts.get("width")),
        )
        said.setdefault(own.words, own).z[k] = z[k]
    yield from said.values()


def _named(facts: Facts) -> str:
    """What a thing is called; the mirror images of a piece that is drawn whole have names of their own."""
    name, copy = facts.get("name", facts.get("edge")), round(float(facts.get("copy", 0)))
    return str(name) if not copy else f"{name}_copy" if copy == 1 else f"{name}_copy_{copy}"


def _short(mm: str | float | None) -> str | None:
    return None if mm is None else f"{float(mm):.10g}"


def darts(sized: Sized, chord: float) -> Iterator[Item]:
    """The legs as one line from foot to foot, closed where there are two points; the name stands at the first point."""
    legs: dict[tuple[object, object], dict[int, list[Part]]] = {}
    for facts, drawn in sized.strokes("dart"):
        by_size = legs.setdefault((facts.get("name", ""), facts.get("copy")), {})
        for k, stroke in drawn.items():
            by_size.setdefault(k, []).append(Part("", stroke.cubics))
    for (name, _), drawn_legs in legs.items():
        for line in lines_alike(sized, drawn_legs, False, chord, f"the dart {name}"):
            yield Line(layers.INTERNAL, line.z, line.closed)
    named: set[object] = set()
    for facts, dots in sized.dots("dart"):
        z = _places(sized, dots)
        yield Spot(layers.DRILL_HOLES, z)
        called = facts.get("name"), facts.get("copy")
        if called not in named and "name" in facts:
            named.add(called)
            yield label("DART", _named(facts), z, to=facts.get("to"))


def marks(sized: Sized) -> Iterator[Item]:
    """Drill holes, buttons and the like."""
    for facts, dots in sized.dots("mark"):
        z = _places(sized, dots)
        yield Spot(layers.DRILL_HOLES, z)
        if "name" in facts:
            yield label("MARK", _named(facts), z, kind=facts.get("kind"))


def _places(sized: Sized, dots: Mapping[int, Dot]) -> Complexes:
    z = sized.nowhere()
    for k, dot in dots.items():
        z[k] = dot.at
    return z
