"""Sleeve caps: ease in handbook amounts, over the crown and nowhere else."""

from __future__ import annotations

import math
from typing import Any

import pytest
from external.drafting import MM, Command, Document, arc, line, outline, pattern, seam

# What a handbook or blog gives: unit, armhole, ease drawn, least and most that are stated for it.
SOURCES = {
    # Joseph-Armstrong, Patternmaking for Fashion Design, 2nd ed., p. 68: average 1.5 in (second-hand, reported by designloft).
    # Textbooks commonly 1 to 1 1/2 in; a woven muslin needed 1 3/8 (blog, Madalynne).
    "average": ("in", 18.0, 1.5, 1.0, 1.5),
    "muslin": ("in", 17.0, 1.375, 1.0, 1.5),
    # Knits and sweaters 1/2 to 3/4 in, or none (blog, Madalynne).
    "sweater": ("in", 17.0, 0.625, 0.5, 0.75),
    # About 4 cm for a basic UK 12 block, about 4.5 for a fitted blouse, none for leather (blog, Modeliste Creative, 2018).
    "block": ("cm", 43.0, 4.0, 3.9, 4.1),
    "blouse": ("cm", 43.0, 4.5, 4.4, 4.6),
    "leather": ("cm", 45.0, 0.0, 0.0, 0.0),
    # Tailored sleeves up to 6 cm in all (blog, The London Pattern Cutter).
    "tailored": ("cm", 50.0, 6.0, 4.0, 6.0),
}


def half_disc(
    edge: str, length: float, notches: dict[str, tuple[float, str]], turned: bool = False
) -> Document:
    """A piece with one round edge of a length, with notches so far from its start; drawn the other way round if ``turned``."""
    radius = length / math.pi
    start, stop = (180.0, 0.0) if turned else (0.0, 180.0)
    ends = (-radius, radius) if turned else (radius, -radius)
    nodes = outline(**{edge: arc(radius, start, stop), "rest": line(*reversed(ends))})
    nodes[0]["name"] = "begin"
    return {
        "outline": nodes,
        "notches": {
            name: {"edge": edge, "at": ["begin", at], "kind": kind} for name, (at, kind) in notches.items()
        },
    }


def sleeve(
    unit: str,
    armhole: float,
    ease: float,
    join: dict[str, Any],
    below: float = 0.0,
    kinds: tuple[str, str] = ("single", "double"),
) -> Document:
    """A sleeve against an armhole, notched a fifth of the armhole from either end; ``below`` lies below its front notch."""
    fifth, cap = armhole / 5, armhole + ease + below
    front, back = kinds
    pieces = {
        "bodice": half_disc(
            "armhole", armhole, {"front": (fifth, "single"), "back": (armhole - fifth, "double")}
        ),
        "sleeve": half_disc(
            "cap", cap, {"front": (fifth + below, front), "back": (cap - fifth, back)}, turned=True
        ),
    }
    sides = seam(["bodice.armhole"], ["sleeve.cap"], **join, between=["front", "back"])
    return pattern(pieces, unit, seams={"armhole": sides | {"role": "sleeve"}})


@pytest.mark.parametrize("name", SOURCES)
def test_ease_in_handbook_amounts(check: Command, name: str) -> None:
    """Sources as above. The cap drawn with that ease carries it, and is quiet against the range stated."""
    unit, armhole, ease, least, most = SOURCES[name]
    report = check(sleeve(unit, armhole, ease, {"kind": "eased", "amount": [least, most]}))
    assert report.seam("armhole")["lengths"] == pytest.approx(
        [armhole * MM[unit], (armhole + ease) * MM[unit]], abs=1e-4
    )
    assert [i["difference"] for i in report.seam("armhole")["intervals"]] == pytest.approx(
        [0, ease * MM[unit], 0], abs=1e-4
    )
    assert report.findings("sleeves") == report.findings("seams/notches-differ") == []


@pytest.mark.parametrize(
    ("unit", "ease", "stated", "off"),
    [
        ("in", 1.5, "sweater", 0.75 * 25.4),  # a woven cap's ease in a knit
        ("cm", 4.0, "leather", 40.0),
        ("cm", 2.0, "tailored", -20.0),
    ],
)
def test_the_ease_of_one_garment_is_a_fault_in_another(
    check: Command, unit: str, ease: float, stated: str, off: float
) -> None:
    _, _, _, least, most = SOURCES[stated]
    document = sleeve(unit, 17.0 if unit == "in" else 45.0, ease, {"kind": "eased", "amount": [least, most]})
    (found,) = check(document).findings("sleeves/cap-ease")
    assert found["severity"] == "error"
    assert found["sizes"][0]["off"] == pytest.approx(off, abs=1e-3)


def test_what_nobody_states_is_no_fault(check: Command) -> None:
    """K. Fasanella (blog, Fashion-Incubator) holds that a well-cut sleeve needs no ease: ranges of handbooks are no law."""
    plain = {"kind": "eased", "amount": [0, 0.1]}
    assert check(sleeve("cm", 45, 0, plain)).findings("sleeves") == []
    unstated = check(sleeve("cm", 45, 3, {"kind": "eased"})).printed["findings"]
    said = [(f["check"], f["severity"]) for f in unstated if f["seam"] == "armhole"]
    assert said == [("seams/fullness-not-stated", "info")]


@pytest.mark.parametrize(
    ("below", "severity"), [(0.4, None), (1.5, "info"), (2.0, "warning"), (4.0, "error")]
)
def test_none_of_it_lies_below_the_notches(check: Command, below: float, severity: str | None) -> None:
    """Ease between the notches over the crown, none below them: from memory of Joseph-Armstrong and Aldrich. Steps as for a
    length: Threads 200, Dec 2018/Jan 2019."""
    document = sleeve("mm", 450, 30, {"kind": "eased", "amount": [25, 40]}, below)
    report = check(document)
    assert report.findings("sleeves/cap-ease") == []
    found = report.findings("sleeves/unequal-below-notches")
    assert [f["severity"] for f in found] == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("kinds", "said"),
    [
        (("single", "double"), []),
        (("double", "single"), ["seams/stations-cross"]),
        (("single", "single"), ["seams/notches-differ"]),
    ],
)
def test_single_in_front_and_matching_double_behind(
    check: Command, kinds: tuple[str, str], said: list[str]
) -> None:
    """L. McConnell, patternmaking textbook (Routledge), ch. Sleeves, abstract: on sleeve and armhole alike."""
    document = sleeve("mm", 450, 30, {"kind": "eased", "amount": [25, 40]}, kinds=kinds)
    found = {f["check"] for f in check(document).printed["findings"]}
    assert sorted(found & {"seams/stations-cross", "seams/notches-differ"}) == said
