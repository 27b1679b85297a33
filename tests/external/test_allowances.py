"""Allowances in inches, and what French, felled and trimmed seams need of them."""

from __future__ import annotations

from typing import Any

import pytest
from external.drafting import Command, Document, box, pattern, seam


def pair(one: Document, other: Document, **said: Any) -> Document:
    """Two panels in inches joined at their sides; what is said of either side's allowance and of the seam."""
    return pattern(
        {
            "front": {"outline": box(10, 20), "edges": {"end": one}},
            "back": {"outline": box(10, 20), "edges": {"end": other}},
        },
        "in",
        seams={"side": seam(["front.end"], ["back.end"]) | said},
    )


ABOUT = ("seams/allowances-differ", "seams/allowance-too-narrow")


def spoken(check: Command, document: Document) -> list[str]:
    return [f["check"] for f in check(document).printed["findings"] if f["check"] in ABOUT]


# Inches and their millimetres: home patterns 5/8, industry 1/2, plain lockstitched 3/8, enclosed seams 1/4. A book excerpt,
# "Seams Your Way"; Fashion-Incubator (blog) for 3/8.
WIDTHS = [(5 / 8, 15.875), (1 / 2, 12.7), (3 / 8, 9.525), (1 / 4, 6.35)]


@pytest.mark.parametrize(("inches", "mm"), WIDTHS)
def test_usual_allowances(check: Command, inches: float, mm: float) -> None:
    """Two alike are fine; one against a tailor's 1 in is told in the figures above."""
    assert spoken(check, pair({"allowance": inches}, {"allowance": inches})) == []
    (found,) = check(pair({"allowance": inches}, {"allowance": 1})).findings("seams/allowances-differ")
    assert sorted([found["sizes"][0]["measured"], found["sizes"][0]["expected"]]) == pytest.approx([mm, 25.4])


def test_a_french_seam_of_a_quarter_and_three_eighths(check: Command) -> None:
    """Trade sheets (trendsmask; BMMT; secrets-of-self-sufficiency): first 1/4 in, trimmed to 1/8, then 3/8: 5/8 in all."""
    french = {"construction": "french"}
    trimmed = {"allowance": 1 / 4 + 3 / 8, "trim_to": 1 / 8}
    assert spoken(check, pair(trimmed, trimmed, **french)) == []


@pytest.mark.parametrize(
    ("mm", "fits"), [(12.0, True), (10.0, True), (9.0, True), (8.0, False), (6.35, False)]
)
def test_a_french_seam_on_sheer_cloth(check: Command, mm: float, fits: bool) -> None:
    """Common practice, no source: 10 to 12 mm in all; under 9 mm there is no room."""
    edge = {"allowance": mm / 25.4}
    said = spoken(check, pair(edge, edge, construction="french"))
    assert said == ([] if fits else ["seams/allowance-too-narrow"])


def test_a_flat_felled_seam(check: Command) -> None:
    """Trade sheets, as above: sewn at 5/8 in, one side trimmed to 1/4. A plain seam trimmed so would be told."""
    whole, trimmed = {"allowance": 5 / 8}, {"allowance": 5 / 8, "trim_to": 1 / 4}
    assert spoken(check, pair(whole, trimmed, construction="felled")) == []
    assert spoken(check, pair(whole, trimmed)) == ["seams/allowances-differ"]
    narrow = {"allowance": 1 / 4}
    assert spoken(check, pair(narrow, narrow, construction="felled")) == ["seams/allowance-too-narrow"]


def test_an_underarm_trimmed_to_a_quarter_inch_on_both_sides(check: Command) -> None:
    """Association of Sewing and Design Professionals, Standards of Quality: the underarm is trimmed to 1/4 in, the crown of a
    tailored sleeve keeps 5/8."""
    crown, underarm = {"allowance": 5 / 8}, {"allowance": 5 / 8, "trim_to": 1 / 4}
    assert spoken(check, pair(crown, crown)) == []
    assert spoken(check, pair(underarm, underarm)) == []
    assert spoken(check, pair(crown, underarm)) == ["seams/allowances-differ"]


def test_a_coat_lining_half_an_inch_wider_is_laid_in_a_pleat(check: Command) -> None:
    """An early 20th century coat chapter (fashion-design-drawing.com): each half of the back lining is 1/2 in wider than the
    coat. Laid in a pleat at centre back it fits, without one it does not."""

    fold = {"edges": {"start": {"fold": True}}}

    def coat(**more: Any) -> Document:
        pieces = {"coat": {"outline": box(10, 20)} | fold, "lining": {"outline": box(10.5, 20)} | fold | more}
        return pattern(pieces, "in", seams={"neck": seam(["coat.upper"], ["lining.upper"], kind="pleated")})

    pleat = {"pleats": {"ease": {"edge": "upper", "folds": [["start", 0.5], "start"]}}}
    assert check(coat(**pleat)).seam("neck")["differences"] == pytest.approx([0])
    assert check(coat()).seam("neck")["differences"] == pytest.approx([12.7])
    assert [f["severity"] for f in check(coat()).findings("seams/unequal-length")] == ["error"]
