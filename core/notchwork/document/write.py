"""Model -> open JSON: the same pattern gives the same bytes."""

from __future__ import annotations

from notchwork.document.codec import document_of
from notchwork.document.errors import UnwritablePattern
from notchwork.document.layout import laid_out
from notchwork.model import Pattern


def write_pattern(pattern: Pattern) -> bytes:
    """The open JSON document of a pattern, in its own unit, in the schema's key order, as UTF-8.

    Lengths are rounded to 4 decimals in mm, 5 in cm, 6 in inches; keys that start with ``x-`` are kept. Raises
    UnwritablePattern for a number that is not finite and for text that holds half of a character.
    """
    try:
        return f"{laid_out(document_of(pattern))}\n".encode()
    except (ValueError, OverflowError) as error:
        raise UnwritablePattern(
            pattern.title or "the pattern",
            f"It cannot be written: {error}.",
            "This is a mistake in what made the pattern, not in how it is written.",
        ) from error
