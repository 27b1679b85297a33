"""Letters of seams."""

from __future__ import annotations

from notchwork.model import Pattern, Seam
from notchwork.sewing.letters import letters


def test_letters_follow_the_pattern_and_go_on_after_z() -> None:
    seams = {f"seam{number}": Seam(sides=()) for number in range(26 + 26 * 26 + 1)}
    found = list(letters(Pattern(seams=seams)).values())
    assert found[:3] == ["A", "B", "C"]
    assert found[25:28] == ["Z", "AA", "AB"]
    assert found[-2:] == ["ZZ", "AAA"]
    assert len(set(found)) == len(found)
