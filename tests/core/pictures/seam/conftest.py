"""The cards of the patterns that are looked at."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.seam import seam_pictures


@pytest.fixture(scope="session")
def cards_of_all(looked_at: Verdict) -> Mapping[str, Picture]:
    """The card of every seam of each shipped pattern in turn."""
    assert looked_at.nest is not None
    return seam_pictures(looked_at.nest, looked_at)
