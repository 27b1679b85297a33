"""How true a seam must be: 1/16 in for a professional, 1/8 in for many sewers."""

from __future__ import annotations

import pytest
from external.drafting import Command, box, pattern, seam

# Threads 200 (Dec 2018/Jan 2019), "10 Patternwork Skills": true to 1/16 in (1.6 mm); 1/8 in (3.2 mm) works for many.
STEPS = [
    (0, None),
    (1 / 64, None),
    (1 / 32, "info"),
    (1 / 16, "info"),
    (3 / 32, "warning"),
    (1 / 8, "warning"),
    (3 / 16, "error"),
]


@pytest.mark.parametrize(("inches", "severity"), STEPS)
def test_a_side_seam_in_inches(check: Command, inches: float, severity: str | None) -> None:
    """Threads 200, as above, on 16 in of side seam."""
    pieces = {"front": {"outline": box(9, 16)}, "back": {"outline": box(10, 16 + inches)}}
    document = pattern(pieces, "in", seams={"side": seam(["front.end"], ["back.end"])})
    found = check(document).findings("seams/unequal-length")
    assert [f["severity"] for f in found] == ([severity] if severity else [])
    for finding in found:
        assert finding["sizes"][0]["off"] == pytest.approx(inches * 25.4)


@pytest.mark.parametrize(("inches", "words"), [(1 / 8, "1/8 in"), (3 / 16, "3/16 in"), (5 / 16, "5/16 in")])
def test_it_is_said_as_a_tape_shows_it(check: Command, inches: float, words: str) -> None:
    """Common practice, no source: a tape in inches shows sixteenths, in lowest terms."""
    pieces = {"front": {"outline": box(9, 16)}, "back": {"outline": box(10, 16 + inches)}}
    document = pattern(pieces, "in", seams={"side": seam(["front.end"], ["back.end"])})
    (found,) = check(document).findings("seams/unequal-length")
    assert f"is {words} longer than" in found["message"]
    assert "up to 1/16 in is fine" in found["message"]


def test_seams_are_walked_on_the_seam_line_whatever_the_allowance(check: Command) -> None:
    """Threads 200, as above: work on seam lines, ignore allowances."""
    front = {"outline": box(9, 16), "allowance": 5 / 8}
    back = {"outline": box(10, 16), "allowance": 1}
    report = check(
        pattern({"front": front, "back": back}, "in", seams={"side": seam(["front.end"], ["back.end"])})
    )
    assert report.seam("side")["lengths"] == pytest.approx([406.4, 406.4])
    assert report.findings("seams/unequal-length") == []


@pytest.mark.parametrize(("name", "longer"), [("back shoulder", 0.375), ("princess over the bust", 0.25)])
def test_seams_that_may_differ_say_so(check: Command, name: str, longer: float) -> None:
    """Blog (7 Pine Design): a back shoulder is eased into the front's, a princess seam over the bust; centre front and back are
    nearly always equal. Amounts: common practice, no source."""
    pieces = {"one": {"outline": box(5, 5)}, "other": {"outline": box(5, 5 + longer)}}
    eased = {"kind": "eased", "amount": [0.25, 0.375]}

    def said(**join: object) -> list[str]:
        seams = {"seam": seam(["one.end"], ["other.end"], **join)}
        return [f["severity"] for f in check(pattern(pieces, "in", seams=seams)).findings("seams")]

    assert said(**eased) == []
    assert said() == ["error"]
