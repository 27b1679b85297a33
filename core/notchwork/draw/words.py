"""Words as long as they can be written."""

from __future__ import annotations

from typing import Final

MOST_LETTERS: Final = 120
"""More letters, written out, would reach further than any piece, and a plotter would write for hours."""


def shortened(words: str) -> str:
    """The words, broken off where they have more than MOST_LETTERS."""
    return words if len(words) <= MOST_LETTERS else f"{words[: MOST_LETTERS - 1].rstrip()}…"
