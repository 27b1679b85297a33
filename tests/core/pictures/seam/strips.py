"""Small patterns for pictures of one seam: rectangles sewn edge to edge, each side's neighbours sewn to each other."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.seam import seam_pictures
from tests.patterns import Document

HIGH = 300
Length = float | Mapping[str, float]


@dataclass
class Cloth:
    """A piece whose edge of a length (mm, or by size) is sewn; notches by name: how far from its start, and the kind.

    ``takes``: further keys of the piece, such as pleats.
    """

    name: str
    length: Length
    notches: Mapping[str, tuple[float, str]] = field(default_factory=dict)
    by_tape: bool = False
    takes: Mapping[str, Any] = field(default_factory=dict)


def document(
    one: Sequence[Cloth],
    *others: Sequence[Cloth],
    joins: Sequence[Mapping[str, Any] | None] = (),
    sizes: Sequence[str] = (),
    unit: str = "mm",
    layers: Sequence[int] = (),
    **seam: Any,
) -> Document:
    """A pattern whose seam "it" sews the further sides to the first. ``seam`` are further keys of it."""
    joined = [*joins, *([None] * len(others))]
    pieces: dict[str, Any] = {}
    seams: dict[str, Any] = {}
    sides: list[Any] = []
    for number, side in enumerate((one, *others)):
        edge, spans = ("bottom", "top")[number > 0], []
        idents = [f"p{number}_{k}" for k in range(len(side))]
        for ident, cloth in zip(idents, side, strict=True):
            pieces[ident] = _piece(cloth, edge, sizes)
            spans.append({"edge": f"{ident}.{edge}", **({"from": "left"} if number else {})})
        after = idents[1:] + idents[:1] if seam.get("closed") and len(side) > 1 else idents[1:]
        for k, (a, b) in enumerate(zip(idents, after, strict=False)):
            if not (side[k].by_tape or side[0].by_tape):
                seams[f"join{number}_{k}"] = {
                    "sides": [[f"{a}.right"], [{"edge": f"{b}.left", "from": "bottom"}]]
                }
        extra = {"layers": layers[number - 1]} if number and number <= len(layers) else {}
        join = joined[number - 1] if number else None
        sides.append({"spans": spans, **({"join": dict(join)} if join else {}), **extra})
    return {
        "notchwork": "1.0",
        "title": "Strips",
        "unit": unit,
        **(
            {"sizes": {"names": list(sizes), "base": sizes[len(sizes) // 2], "ordered": True}}
            if sizes
            else {}
        ),
        "materials": {"cotton": {"name": "Cotton", "width": 1400}},
        "pieces": pieces,
        "seams": {"it": {"sides": sides, **seam}, **seams},
    }


def _piece(cloth: Cloth, edge: str, sizes: Sequence[str]) -> dict[str, Any]:
    common = {"name": cloth.name, "cut": [{"material": "cotton", "count": 1}], **cloth.takes}
    if cloth.by_tape:
        return {**common, "edges": {e: {"length": cloth.length} for e in ("bottom", "right", "top", "left")}}
    if isinstance(cloth.length, Mapping):
        shape: dict[str, Any] = {"outlines": {size: _box(cloth.length[size]) for size in sizes}}
    else:
        shape = {"outline": _box(cloth.length)}
    notches = {
        name: {"edge": edge, "at": ["left", at], "kind": kind} for name, (at, kind) in cloth.notches.items()
    }
    return {
        **common,
        **shape,
        "notches": notches,
        "edges": {"top": {"allowance": 10}, "bottom": {"allowance": 10}},
    }


def _box(length: float) -> list[dict[str, Any]]:
    return [
        {"at": [0, 0], "edge": "bottom"},
        {"at": [length, 0], "edge": "right"},
        {"at": [length, HIGH], "edge": "top"},
        {"at": [0, HIGH], "edge": "left"},
    ]


def verdict_of(document: Document) -> Verdict:
    """What the checks say of a document; fails where it cannot be read."""
    verdict = jobs.check(jobs.load(json.dumps(document).encode(), "test.pattern.json"))
    assert verdict.nest is not None, [graded.finding.text for graded in verdict.findings]
    return verdict


def pictured(document: Document, seam: str = "it") -> Picture:
    """The card of one seam."""
    verdict = verdict_of(document)
    assert verdict.nest is not None
    return seam_pictures(verdict.nest, verdict)[seam]
