"""Waves are as long as the cloth; measured with svgpathtools, which knows nothing of how they were made."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svgpathtools import parse_path

from notchwork.pictures.seam.wave import PERIOD, TALLEST, wave


@settings(max_examples=30, deadline=None)
@given(st.floats(8.0, 330.0), st.floats(1.01, 6.0))
def test_a_wave_is_as_long_as_its_cloth_and_ends_at_its_pin(chord: float, ratio: float) -> None:
    path = parse_path(f"M0 0{wave(chord, ratio).path()}")
    assert sum(part.length() for part in path) == pytest.approx(chord * ratio, rel=1e-3)
    assert abs(path[-1].end - chord) < 0.1


@given(st.floats(8.0, 330.0), st.floats(1.01, 6.0))
def test_a_wave_reaches_as_far_as_it_says(chord: float, ratio: float) -> None:
    drawn = wave(chord, ratio)
    half = parse_path(f"M0 0{drawn.path()}")[0]
    assert abs(half.point(0.5).imag) == pytest.approx(drawn.height, abs=0.01)


def test_waves_are_as_wide_as_can_be_told_apart() -> None:
    assert wave(330.0, 2.0).count == round(330 / PERIOD)
    full = wave(330.0, 9.0)
    assert full.count > 330 / PERIOD
    assert 2.0 * full.height <= TALLEST * 1.1
