"""Positions on lines that agree, found without comparing all with all."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.sewing.pieces.lines import Agreeing, agree

POSITIONS = st.lists(
    st.sampled_from([0.0, 0.3, 0.5, 0.9, 1.0, 1.4, 7.0, float("nan")]), min_size=2, max_size=2
)


@given(st.lists(POSITIONS, max_size=12), POSITIONS)
@settings(max_examples=200)
def test_those_are_found_that_comparing_with_each_finds(
    entered: list[list[float]], asked: list[float]
) -> None:
    known: Agreeing[int] = Agreeing(0.5)
    for number, at in enumerate(entered):
        known.add(np.array(at), number)
    expected = {number for number, at in enumerate(entered) if agree(np.array(asked), np.array(at), 0.5)}
    assert set(known.at(np.array(asked))) == expected
    assert known.any_at(np.array(asked)) == bool(expected)
