"""What all tests share: where the cases are, and golden files that a flag refreshes."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

TESTS = Path(__file__).parent

os.environ.pop("COLUMNS", None)  # what is printed is compared at its usual width


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--refresh-golden",
        action="store_true",
        help="write the golden files anew; look at them before you commit",
    )


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compare a text with a golden file by its name under tests/golden."""

    def compare(name: str, text: str) -> None:
        path = TESTS / "golden" / name
        if request.config.getoption("--refresh-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert path.exists(), f"{name} is missing; write it with --refresh-golden"
        assert text == path.read_text(encoding="utf-8")

    return compare


@pytest.fixture
def cases() -> Path:
    return TESTS / "cases"


@pytest.fixture(scope="session")
def playwright() -> Iterator[Any]:
    """Playwright's driver, of which there can be one in a process; skipped with a reason where it is missing."""
    api = pytest.importorskip("playwright.sync_api", reason="needs Playwright: pip install '.[browser]'")
    with api.sync_playwright() as driver:
        yield driver
