"""Small patterns for pictures of one seam: rectangles sewn edge to edge, each side's neighbours sewn to each other."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from patterns import Document

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.seam import seam_pictures

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


PITCHED: Any = {"kind": "eased", "amount": [11, 17], "between": ["pitch", "back_pitch"]}


def cap(before: float, behind: float, below: float = 80.6) -> Document:
    """A sleeve's cap in its armhole, a ring: so much cloth (mm) before and behind the crown, and below the back pitch."""
    crown, back = 80.0 + before, 80.0 + before + behind
    sleeve = Cloth(
        "Sleeve cap",
        back + below,
        {"pitch": (80, "single"), "crown": (crown, "triple"), "back_pitch": (back, "double")},
    )
    return document(
        [
            Cloth("Front armhole", 215.9, {"pitch": (80, "single")}),
            Cloth("Back armhole", 211.6, {"back_pitch": (131, "double")}),
        ],
        [sleeve],
        joins=[PITCHED],
        closed=True,
        meet=[["p0_1.left", "p1_0.crown"]],
    )


def gathered(*ratios: tuple[float, float, float], layers: Sequence[int] = ()) -> Document:
    """A waist of three pieces with sides gathered to it, each so many times as long over each piece."""
    waist = (("Front", 180.0), ("Side", 120.0), ("Back", 160.0))
    sides = [
        [Cloth(f"{name} {number}", length * times) for (name, length), times in zip(waist, row, strict=True)]
        for number, row in enumerate(ratios, 2)
    ]
    join = {"kind": "gathered", "ratio": [2.4, 2.8]}
    return document([Cloth(*piece) for piece in waist], *sides, joins=[join] * len(ratios), layers=layers)


def side(
    front: Length, back: Length, hip: float = 250.0, back_hip: float | None = None, **more: Any
) -> Document:
    """A side seam with a hip notch, so far from its start on either side."""
    return document(
        [Cloth("Front", front, {"hip": (hip, "single")})],
        [Cloth("Back", back, {"hip": (hip if back_hip is None else back_hip, "single")})],
        **more,
    )


PANELS = (60, 40, 45, 40, 60, 60, 60, 43, 44, 40, 60, 51)
"""mm: twelve panels, of which the eighth is 3 mm longer than its stretch of the yoke."""


def dozen() -> Document:
    """A yoke with twelve panels sewn to it, each pinned at its ends."""
    stretches = [*PANELS[:7], 40, *PANELS[8:]]
    yoke = Cloth("Yoke", 600, {f"n{k}": (float(sum(stretches[:k])), "single") for k in range(1, 12)})
    return document(
        [yoke],
        [
            Cloth(f"{('Panel', 'Gore', 'Side panel')[k % 3]} {k + 1}", length)
            for k, length in enumerate(PANELS)
        ],
        meet=[[f"p0_0.n{k}", f"p1_{k}.left"] for k in range(1, 12)],
    )


HOSTILE = ("<script>alert(1)</script>\"'&", "\u05d0\u05d1\u05d2\u202e\U0001f600" * 2000, "{0} {name}")

CASES: Mapping[str, Document] = {
    "plain": side(400, 400),
    "longer": side(394, 398.5),
    "two in 600": side(600, 602, 300),
    "slipped": side(400, 400, 250, 256),
    "cap": cap(141.3, 140.4),
    "cap below": cap(141.3, 140.4, 84.6),
    "cap too little": cap(138.3, 134.6),
    "cap too much": cap(141.9, 151.0),
    "gathered": gathered((2.6, 2.6, 2.6), layers=[2]),
    "gathered off": gathered((2.6, 2.6, 2.6), (2.6, 1.9, 3.2), layers=[2]),
    "stretched": document(
        [Cloth("Front", 231), Cloth("Back", 231)],
        [Cloth("Band", 380)],
        joins=[{"kind": "stretched", "ratio": [0.75, 0.9]}],
    ),
    "stretched off": document(
        [Cloth("Front", 231, {"q": (115, "single")}), Cloth("Back", 231)],
        [Cloth("Band", 460, {"q": (75, "single")})],
        joins=[{"kind": "stretched", "ratio": [0.75, 0.9]}],
    ),
    "0.4 mm": side(600, 600.4, 300),
    "80 mm": side(600, 680, 300),
    "120 mm": side(600, 720, 300),
    "80 mm in 100": side(600, 680, 500),
    "by tape": document([Cloth("Front", 412)], [Cloth("Back", 418, by_tape=True)]),
    "dozen": dozen(),
    "small": document(
        [Cloth("Skirt", 1000, {"a": (400, "single"), "b": (420, "single")})],
        [Cloth("Band", 1002, {"a": (400, "single"), "b": (422, "single")})],
    ),
    "spread thin": document(
        [Cloth("Yoke", 600, {f"n{k}": (k * 24, "single") for k in range(1, 25)})],
        [Cloth("Panel", 610, {f"n{k}": (k * 24.4, "single") for k in range(1, 25)})],
    ),
    "crossed": document(
        [Cloth("Front", 400, {"a": (100, "single"), "b": (250, "double")})],
        [Cloth("Back", 400, {"a": (250, "single"), "b": (100, "double")})],
    ),
    "lost": document(
        [Cloth("Front", 400, {"a": (100, "single"), "b": (250, "double"), "c": (300, "single")})],
        [Cloth("Back", 400, {"a": (100, "single"), "b": (250, "double")})],
    ),
    "sizes": side({"S": 406, "M": 400, "L": 394}, {"S": 406, "M": 400, "L": 398.5}, sizes=["S", "M", "L"]),
    "seven sizes": side(
        {str(k): 400.0 + k for k in range(34, 48, 2)},
        {str(k): 404.0 + k if k == 44 else 400.0 + k for k in range(34, 48, 2)},
        sizes=[str(k) for k in range(34, 48, 2)],
    ),
    "both ways": side({"S": 406, "M": 400, "L": 404}, {"S": 402, "M": 400, "L": 409}, sizes=["S", "M", "L"]),
    "pleats": document(
        [Cloth("Band", 440)],
        [
            Cloth(
                "Skirt",
                600,
                takes={
                    "pleats": {
                        f"pleat_{k}": {
                            "edge": "top",
                            "folds": [["left", 60 + 80 * k], ["left", 100 + 80 * k]],
                            "to": "left",
                        }
                        for k in range(4)
                    }
                },
            )
        ],
    ),
    "inches": side(15.5, 15.6875, 9.84, unit="in"),
    "ease in inches": document(
        [Cloth("Front", 5)],
        [Cloth("Back", 5.25)],
        unit="in",
        joins=[{"kind": "eased", "amount": [0.25, 0.5]}],
    ),
    "ease not stated": document([Cloth("Front", 120)], [Cloth("Back", 128)], joins=[{"kind": "eased"}]),
    "short where eased": document(
        [Cloth("Front", 120)], [Cloth("Back", 116)], joins=[{"kind": "eased", "amount": [4, 7]}]
    ),
    "hostile": document(
        [Cloth(HOSTILE[0], 400, {"hip": (250, "single")}), Cloth(HOSTILE[2], 30)],
        [Cloth(HOSTILE[1], 436, {"hip": (250, "single")})],
        name="x" * 10_000,
    ),
}
"""One seam, "it", for every rule of the pictures and for what lies at their limits."""
