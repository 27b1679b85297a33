from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from notchwork.document import ReadResult, read_pattern

CASES = Path(__file__).parents[2] / "cases"

Edit = Callable[..., ReadResult]


@pytest.fixture(scope="session")
def ferry_bytes() -> bytes:
    return (CASES / "ferry_smock.pattern.json").read_bytes()


@pytest.fixture(scope="session")
def every_key_bytes() -> bytes:
    return (CASES / "every_key.pattern.json").read_bytes()


@pytest.fixture
def ferry(ferry_bytes: bytes) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(ferry_bytes)
    return document


@pytest.fixture
def edited(ferry: dict[str, Any]) -> Edit:
    """Read the smock with one value set (or, for ``...``, taken away) at a way through the document."""

    def edit(way: str, value: Any) -> ReadResult:
        document = copy.deepcopy(ferry)
        *holders, last = way.split("/")
        inner: Any = document
        for part in holders:
            inner = inner[int(part)] if isinstance(inner, list) else inner.setdefault(part, {})
        key: Any = int(last) if isinstance(inner, list) else last
        if value is ...:
            del inner[key]
        else:
            inner[key] = value
        return read_pattern(json.dumps(document, indent=1).encode(), "smock")

    return edit
