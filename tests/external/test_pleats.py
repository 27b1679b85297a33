"""Pleats and gores: printed worked examples, as sewn by the program."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from external.drafting import Command, Document, box, line, outline, pattern, seam, tape


def pleats(edge: str, corner: str, space: float, intakes: Sequence[float]) -> Document:
    """Pleats along an edge, from a corner, each after a stretch that shows."""
    made, at = {}, 0.0
    for k, intake in enumerate(intakes):
        at += space
        made[f"{edge}_{k}"] = {"edge": edge, "folds": [[corner, at], [corner, at + intake]]}
        at += intake
    return made


def test_full_depth_knife_pleats(check: Command) -> None:
    """Yuzu & Pear, Pleats Please 2: waist 68 and 4 of ease are 72 cm; 18 pleats of 4 cm; three times that, 216 cm, flat."""
    skirt = {"outline": box(216, 60), "pleats": pleats("upper", "end", 4, [8] * 18)}
    band = {"strip": {"width": 8, "length": 72}}
    sides = seam(["band.lower"], [{"edge": "skirt.upper", "from": "start"}], kind="pleated")
    report = check(pattern({"skirt": skirt, "band": band}, "cm", seams={"waist": sides}))
    assert report.seam("waist")["lengths"] == pytest.approx([720, 720])
    assert report.findings("seams/unequal-length") == []


def test_an_inverted_pleat_at_a_seam(check: Command) -> None:
    """L. Baldt, Clothing for Women (1916): once the pleat's width is added to one edge and three times to the other, four in
    all. Its seam lies at the back of the pleat."""
    width = 2.5
    left = {
        "outline": box(10 + width, 30),
        "pleats": {"a": {"edge": "upper", "folds": ["end", ["end", width]]}},
    }
    right = {
        "outline": box(10 + 3 * width, 30),
        "pleats": {
            "b": {"edge": "upper", "folds": [["start", width], "start"]},
            "c": {"edge": "upper", "folds": [["start", 3 * width], ["start", width]]},
        },
    }
    document = pattern(
        {"left": left, "right": right, "band": {"strip": {"width": 3, "length": 20}}},
        "in",
        seams={
            "pleat": seam(["left.end"], [{"edge": "right.start", "from": "lower"}]),
            "waist": seam(["band.lower"], ["right.upper", "left.upper"], kind="pleated"),
        },
    )
    report = check(document)
    assert report.seam("waist")["lengths"] == pytest.approx([508, 508])
    assert report.findings("seams/unequal-length") == []


# M. Conover et al., A Complete Course in Dressmaking, vol. 5, Skirts (1921-22), pp. 64-69, for half a skirt of 44 in of cloth
# with eight pleats: what is wanted at each level, and what is pleated away: the panel's pleat of 2 1/8 in, and seven that
# share the rest (27 7/8 / 7 at the waist, 21 7/8 / 7 at the hip).
PANEL = 2 + 1 / 8
LEVELS = [("waist", 14.0, 3.982), ("hip", 20.0, 3.125)]


def level(wanted: float, intakes: Sequence[float]) -> Document:
    """The skirt at one level, to be as wide as wanted."""
    cloth = {"outline": box(44, 30), "pleats": pleats("upper", "end", wanted / 9, intakes)}
    sides = seam(["belt.lower"], [{"edge": "cloth.upper", "from": "start"}], kind="pleated")
    return pattern(
        {"cloth": cloth, "belt": {"strip": {"width": 1, "length": wanted}}}, "in", seams={"level": sides}
    )


@pytest.mark.parametrize(("name", "wanted", "each"), LEVELS)
def test_a_pleated_skirt_of_the_twenties(check: Command, name: str, wanted: float, each: float) -> None:
    """Conover, as above: 44 in less what is pleated away is 14 in at the waist and 20 in at the hip."""
    report = check(level(wanted, [PANEL, *[each] * 7]))
    assert report.seam("level")["lengths"] == pytest.approx([wanted * 25.4] * 2, abs=0.05)
    assert report.findings("seams/unequal-length") == []


def test_a_panel_pleat_rounded_up_eight_times_takes_half_an_inch_of_hem(check: Command) -> None:
    """Conover, as above: 27 1/2 in of hem leave 16 1/2 / 8 = 2.0625 in for each pleat, printed as 2 1/8 for the panel's."""
    exact, rounded = check(level(27.5, [2.0625] * 8)), check(level(27.5, [PANEL] * 8))
    assert exact.seam("level")["differences"] == pytest.approx([0], abs=1e-6)
    assert rounded.seam("level")["differences"] == pytest.approx([-12.7], abs=1e-6)
    assert [f["severity"] for f in rounded.findings("seams/unequal-length")] == ["error"]


def gores(hem: float) -> Document:
    """Five gores in inches: a front, and four that have ``hem`` at the bottom; against what the skirt is to measure."""
    front = {
        "outline": outline(
            hem=line(0, 10), s=line(10, 7.5 + 36j), waist=line(7.5 + 36j, 2.5 + 36j), t=line(2.5 + 36j, 0)
        )
    }
    half = hem / 2
    gore = {
        "outline": outline(
            hem=line(-half, half),
            s=line(half, 2.5 + 36j),
            waist=line(2.5 + 36j, -2.5 + 36j),
            t=line(-2.5 + 36j, -half),
        ),
        "cut": [{"material": "cloth", "count": 4}],
    }
    return pattern(
        {"front": front, "gore": gore, "body": tape(waist=25, hem=81)},
        "in",
        seams={
            name: seam([f"body.{name}"], [f"front.{name}", {"edge": f"gore.{name}", "times": 4}])
            for name in ("waist", "hem")
        },
    )


def test_five_gores_whose_printed_hem_is_a_quarter_inch_off(check: Command) -> None:
    """The Perfect Dressmaking System (1914), p. 13: waist 25 in is 5 for each gore; a hem of 2 1/4 yd, 81 in, is 10 for the
    front gore and, as printed, 17 1/2 for each of the others. That is an inch short in all: they need 17 3/4."""
    printed, right = check(gores(17.5)), check(gores(17.75))
    assert printed.seam("waist")["differences"] == pytest.approx([0])
    assert printed.seam("hem")["differences"] == pytest.approx([-25.4])
    assert [f["severity"] for f in printed.findings("seams/unequal-length")] == ["error"]
    assert right.seam("hem")["differences"] == pytest.approx([0])
    assert right.findings("seams/unequal-length") == []
