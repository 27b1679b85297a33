"""Bias strips from a square by the continuous method: what the area promises, and what whole strips give.

The program plans no yields. Drawn are the two triangles of the square joined to a parallelogram, and on it the lines along
which strips are cut; what it measures there is held against the figures.
"""

from __future__ import annotations

import math

import pytest
from external.drafting import Command, Document, line, outline, pattern, seam

# Side of the square and width of the strip in inches; the length that the area promises (Sew a Quilt; Mydecozo; Quilters
# Question Time, blogs), or None where the source speaks of another square; the whole strips and their length (computed, no
# source), before what joining takes.
SQUARES = [
    (12.0, 2.0, 72.0, 4, 67.88),
    (20.0, 2.0, 200.0, 7, 197.99),
    (23.0, 2.0, None, 8, 260.2),
    (19.0, 3.5, 100.0, 3, 80.6),
    (20.0, 3.5, None, 4, 113.1),
]


def parallelogram(side: float, width: float, strips: int, needed: float) -> Document:
    """The square turned into a parallelogram, its strips laid along a length that is needed."""
    height, slope = side / math.sqrt(2), side / math.sqrt(2)
    cloth = {
        "outline": outline(
            lower=line(0, 2 * height),
            end=line(2 * height, complex(2 * height + slope, height)),
            upper=line(complex(2 * height + slope, height), complex(slope, height)),
            start=line(complex(slope, height), 0),
        ),
        "inner": {
            f"strip_{k}": {"parallel_to": "lower", "distance": k * width} for k in range(1, strips + 1)
        },
        "marks": {
            "last": {"at": [side, strips * width]},
            "beyond": {"at": [side, (strips + 1) * width]},
        },
    }
    return pattern(
        {"cloth": cloth, "needed": {"strip": {"width": width, "length": needed, "grain": "bias"}}},
        "in",
        seams={"strips": seam(["needed.lower"], [f"cloth.strip_{k}" for k in range(1, strips + 1)])},
    )


@pytest.mark.parametrize(("side", "width", "promised", "strips", "length"), SQUARES)
def test_whole_strips(
    check: Command, side: float, width: float, promised: float | None, strips: int, length: float
) -> None:
    """So many strips lie on the cloth and not one more; laid end to end they are as long as computed."""
    report = check(parallelogram(side, width, strips, length))
    assert report.seam("strips")["lengths"] == pytest.approx([length * 25.4] * 2, abs=25.4 * 0.05)
    outside = report.findings("pieces/off-its-edge")
    assert [("beyond" in f["message"] and "last" not in f["message"]) for f in outside] == [True]


@pytest.mark.parametrize(("side", "width", "promised", "strips", "length"), [s for s in SQUARES if s[2]])
def test_the_area_rule_promises_more(
    check: Command, side: float, width: float, promised: float, strips: int, length: float
) -> None:
    """Blogs, as above: length = area / width; 19 in square for 3 1/2 in is their square for 100 in, rounded up."""
    report = check(parallelogram(side, width, strips, promised))
    assert report.seam("strips")["differences"][0] == pytest.approx(
        (length - promised) * 25.4, abs=25.4 * 0.05
    )
    assert [f["severity"] for f in report.findings("seams/unequal-length")] == ["error"]


@pytest.mark.parametrize(("side", "length"), [(12.0, 72.0), (20.0, 200.0)])
def test_the_area_rule_is_right_about_the_area(describe: Command, side: float, length: float) -> None:
    """Sew a Quilt (blog): a 12 in square holds 72 in of 2 in strip, a 20 in square 200 in, cloth for cloth."""
    report = describe(parallelogram(side, 2, 1, length))
    assert report.piece("cloth")["area"] == pytest.approx(report.piece("needed")["area"], rel=1e-6)


def bound(edge: float, strip: float) -> Document:
    """An edge in inches bound with one strip."""
    quilt = {
        "outline": outline(
            top=line(edge + 20j, 20j), left=line(20j, 0), low=line(0, edge), right=line(edge, edge + 20j)
        ),
        "edges": {"top": {"finish": {"kind": "bound", "with": "binding", "width": 0.5}}},
    }
    binding = {"strip": {"width": 2, "length": strip, "grain": "bias"}}
    return pattern({"quilt": quilt, "binding": binding}, "in")


def test_a_binding_planned_by_area_is_too_short_when_cut(check: Command) -> None:
    """An edge of 70 in seems safe with the 72 in promised by a 12 in square; the whole strips are 67.88 in."""
    assert check(bound(70, 72)).findings("cutting/strip-too-short") == []
    (found,) = check(bound(70, 67.88)).findings("cutting/strip-too-short")
    assert found["sizes"][0]["measured"] == pytest.approx(67.88 * 25.4)


@pytest.mark.parametrize(("degrees", "spoken"), [(45, 0), (43, 0), (40, 1), (60, 1)])
def test_true_bias_stands_at_45_degrees(check: Command, degrees: float, spoken: int) -> None:
    """Common practice, no source; three degrees are let pass (common practice too)."""
    a = math.radians(degrees)
    piece = {
        "outline": outline(
            hem=line(0, 300), b=line(300, 300 + 500j), top=line(300 + 500j, 500j), d=line(500j, 0)
        ),
        "grain": "bias",
        "bias_to": "hem",
        "grainline": [[50, 50], [50 + 150 * math.cos(a), 50 + 150 * math.sin(a)]],
    }
    found = check(pattern({"slip": piece})).findings("pieces/bias-not-45")
    assert [f["sizes"][0]["measured"] for f in found] == [pytest.approx(degrees)] * spoken
