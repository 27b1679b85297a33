"""Standard output and standard error, which may be closed, full or cut off. Imports nothing that ``--help`` would wait for."""

from __future__ import annotations

import os
import shutil
import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress

_NARROWEST, _USUAL, _WIDEST = 40, 80, 100


def width() -> int:
    """How many columns are written: what COLUMNS says, else the terminal's, else 80; never too few or many to read."""
    return min(max(shutil.get_terminal_size((_USUAL, 24)).columns, _NARROWEST), _WIDEST)


def prepare() -> None:
    """Make both streams such that anything can be written. Raises NotchworkError where standard output is closed."""
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - it stays open for as long as the program runs
    if sys.stdout is None:
        from notchwork.findings import NotchworkError

        raise NotchworkError(
            "standard output", "It is closed.", "Leave it open, or send it to a file or to /dev/null."
        )
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    if not sys.warnoptions:
        warnings.showwarning = _nowhere


def _nowhere(*_: object, **__: object) -> None:
    """Where warnings for programmers go, unless Python was asked for them: nobody at a cutting table can act on them."""


def say(text: str, end: str = "\n") -> None:
    """Print on standard output, at once. Raises NotchworkError where it takes nothing more."""
    with _guarded():
        print(text, end=end, flush=True)


def tell(text: str, end: str = "\n") -> None:
    """Print on standard error, at once; where nobody listens, not at all."""
    with suppress(OSError):
        print(text, end=end, file=sys.stderr, flush=True)


def give(data: bytes) -> None:
    """Write bytes to standard output, at once. Raises NotchworkError where it takes nothing more."""
    with _guarded():
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()


def flush() -> None:
    """Write what was printed by other means. Raises NotchworkError where standard output takes nothing more."""
    with _guarded():
        sys.stdout.flush()


def discard() -> None:
    """Let standard output lead nowhere, so that what could not be written is not tried again at the end."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@contextmanager
def _guarded() -> Iterator[None]:
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as error:
        from notchwork.findings import NotchworkError

        discard()
        raise NotchworkError("standard output", f"It could not be written: {error.strerror}.") from error
