"""The ferry smock, and damage done to it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from patterns import Document, case, nest_of

from notchwork.sewing import Nest


@pytest.fixture
def smock_nest() -> Nest:
    return nest_of(case("ferry_smock"))


@pytest.fixture
def damaged() -> Callable[[Callable[[Document], None]], Nest]:
    """The smock's nest after something was done to its document."""

    def damage(change: Callable[[Document], None]) -> Nest:
        document = case("ferry_smock")
        change(document)
        return nest_of(document)

    return damage
