"""Patterns that are looked at: the shipped cases and the example."""

from __future__ import annotations

import pytest
from verdicts import FILES, verdict_of

from notchwork.checks import Verdict


@pytest.fixture(scope="session", params=FILES, ids=lambda path: path.name.partition(".")[0])
def looked_at(request: pytest.FixtureRequest) -> Verdict:
    """Each shipped pattern in turn, as it is checked."""
    return verdict_of(request.param)
