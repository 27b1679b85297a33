"""Seams of any lengths, notches, joins and sizes are pictured, and what holds of every card holds of theirs."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from cards import marks, text_boxes
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strips import Cloth, document, verdict_of

from notchwork.findings import Severity
from notchwork.pictures.seam import seam_pictures

LENGTHS = {
    "seams/unequal-length",
    "seams/stations-do-not-meet",
    "seams/ease-not-as-stated",
    "seams/fullness-not-as-stated",
    "seams/stations-cross",
    "seams/wrong-way",
}
LONG = st.floats(3.0, 1500.0).map(lambda mm: round(mm, 1))
KINDS = st.sampled_from(["single", "single", "double", "triple"])
JOINS = st.sampled_from(
    [
        None,
        {"kind": "eased", "amount": [4, 9]},
        {"kind": "eased"},
        {"kind": "eased", "percent": [2, 4]},
        {"kind": "gathered", "ratio": [1.5, 2.5]},
        {"kind": "gathered"},
        {"kind": "gathered", "amount": [40, 90]},
        {"kind": "stretched", "ratio": [0.7, 0.9]},
        {"kind": "pleated"},
    ]
)


@st.composite
def cloths(draw: st.DrawFn, length: float) -> list[Cloth]:
    """A side of a length, of one to six pieces, with notches."""
    count = draw(st.integers(1, 6))
    shares = [draw(st.floats(0.1, 1.0)) for _ in range(count)]
    found = []
    for k, share in enumerate(shares):
        long = round(length * share / sum(shares), 2)
        notches = {
            f"n{m}": (round(long * draw(st.floats(0.1, 0.9)), 1), draw(KINDS))
            for m in range(draw(st.integers(0, 2)))
        }
        found.append(Cloth(f"Piece {draw(st.text('abcXYZ', max_size=30))} {k}", max(long, 1.0), notches))
    return found


@st.composite
def seams(draw: st.DrawFn) -> dict[str, Any]:
    length = draw(LONG)
    ratio = draw(st.one_of(st.just(1.0), st.floats(0.3, 6.0), st.floats(0.99, 1.02)))
    joins = [draw(JOINS) for _ in range(draw(st.integers(1, 2)))]
    sides = [draw(cloths(length * ratio)) for _ in joins]
    return document(
        draw(cloths(length)),
        *sides,
        joins=joins,
        closed=draw(st.booleans()),
        unit="mm",
        layers=[draw(st.integers(1, 3)) for _ in joins],
    )


@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(seams())
def test_any_seam_is_pictured(made: dict[str, Any]) -> None:
    verdict = verdict_of(made)
    assert verdict.nest is not None
    picture = seam_pictures(verdict.nest, verdict)["it"]
    for a, b in combinations(text_boxes(picture), 2):
        apart = a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] - 1.0 or b[1] >= a[3] - 1.0
        assert apart, (a, b)
    for left, top, right, bottom, said in text_boxes(picture):
        assert left >= 0.0, said
        assert right <= 345.0, said
        assert top >= 0.0, said
        assert bottom <= picture.height, said
    speak = {
        graded.rule.id
        for graded in verdict.at_least(Severity.WARNING)
        if any(place.seam == "it" for place in graded.places)
    }
    hatched = any(f'class="{kind}' in picture.body for kind in ("off", "missing", "cross"))
    assert hatched == bool(speak & LENGTHS)
    for mark in marks(picture, "rect"):
        assert mark.number("width") >= 0.0
        assert mark.x + mark.number("x") + mark.number("width") == pytest.approx(172.0, abs=172.5)
    assert "nan" not in picture.body
    assert "inf" not in picture.says.replace("info", "")
