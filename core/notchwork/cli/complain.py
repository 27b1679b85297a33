"""What could not be done, told on standard error."""

from __future__ import annotations

import sys
from contextlib import suppress

from notchwork.cli.streams import tell, width
from notchwork.findings import safe


def complain(message: str) -> None:
    """Tell it after what was printed before: in one line, which is broken between words where someone looks on."""
    text = f"notchwork: {safe(message)}"
    if sys.stdout is not None:
        with suppress(OSError):
            sys.stdout.flush()
    if sys.stderr.isatty():
        from textwrap import fill

        text = fill(text, width(), subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
    tell(text)
