"""From the command line to an exit code, whatever happens."""

from __future__ import annotations

import gc
import os
from collections.abc import Sequence
from importlib import import_module

from notchwork.cli.arguments import parser
from notchwork.cli.streams import discard, flush, prepare

FAILED = 2
"""What was asked for could not be done."""

_RARELY = 100_000
"""New objects between two searches for garbage: most commands are over before one pays, and imports make none."""
_INTERRUPTED = 130
_PIPE_CLOSED = 141


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command. 0: sound, or done; 1: there are findings; 2: it could not be done."""
    gc.set_threshold(_RARELY)
    try:
        prepare()
        try:
            arguments = parser().parse_args(argv)
            code: int = import_module(f"notchwork.cli.{arguments.module}").run(arguments)
        finally:
            flush()
    except KeyboardInterrupt:
        return _INTERRUPTED
    except BrokenPipeError:
        discard()
        return _PIPE_CLOSED
    except Exception as error:
        return _told(error)
    return code


def _told(error: Exception) -> int:
    from notchwork.cli.complain import complain
    from notchwork.findings import NotchworkError

    if isinstance(error, NotchworkError):
        complain(str(error))
    elif isinstance(error, MemoryError):
        complain("There is not enough memory for this.")
    else:
        complain(
            f"A mistake in the program, not in the pattern ({type(error).__name__}: {error}). Please report it with the "
            f"file. NOTCHWORK_TRACE=1 shows where it happened."
        )
    if os.environ.get("NOTCHWORK_TRACE"):
        raise error
    return FAILED
