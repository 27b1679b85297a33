"""What a reader is given: bytes that were read already, never a path."""

from __future__ import annotations

from collections.abc import Callable

from notchwork.values import frozen


def _nothing_beside(suffix: str) -> Source | None:
    return None


@frozen
class Source:
    """An input's bytes and what the person calls it.

    ``beside`` gives the file of the same name with another suffix, such as a table of rules; None where there is none.
    """

    name: str
    data: bytes
    beside: Callable[[str], Source | None] = _nothing_beside
