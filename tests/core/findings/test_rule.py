from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.findings import Rule, Severity, Tolerance

LENGTHS = Tolerance(0.5, 1.6, 3.2)


@pytest.mark.parametrize(
    ("off", "severity"),
    [
        (0.0, None),
        (0.5, None),
        (0.51, Severity.INFO),
        (1.6, Severity.INFO),
        (1.61, Severity.WARNING),
        (-1.61, Severity.WARNING),
        (3.2 + 1e-9, Severity.WARNING),
        (3.21, Severity.ERROR),
        (float("nan"), None),
    ],
)
def test_beyond_a_step_speaks_and_exactly_the_step_is_fine(off: float, severity: Severity | None) -> None:
    assert LENGTHS.grade(off) is severity


def test_a_step_left_out_is_never_reached() -> None:
    assert Tolerance(None, 1, None).grade(1000) is Severity.WARNING
    assert Tolerance(None, None, 0.5).grade(0.5) is None


@given(st.floats(0.01, 100), st.floats(0, 1000))
def test_scaling_keeps_the_proportion_of_the_steps(fine: float, off: float) -> None:
    scaled = LENGTHS.scaled_to(fine)
    assert scaled.warning == pytest.approx(fine)
    assert scaled.info is not None
    assert scaled.error is not None
    assert scaled.error / scaled.info == pytest.approx(3.2 / 0.5)


@pytest.mark.parametrize("ident", ["seams", "Seams/x", "seams/", "seams/un equal", "a/b/c"])
def test_a_malformed_id_is_refused(ident: str) -> None:
    with pytest.raises(ValueError, match="family/flaw"):
        Rule(ident, "t", "r", "s", Severity.INFO)
