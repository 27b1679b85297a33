"""The right name that is most like a wrong one."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name most like ``name``, whatever its case; None if none is like it."""
    from difflib import get_close_matches

    by_folded = {other.casefold(): other for other in known}
    match = get_close_matches(name.casefold(), list(by_folded), 1, 0.6)
    return by_folded[match[0]] if match else None
