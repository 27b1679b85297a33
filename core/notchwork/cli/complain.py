"""What could not be done, told on standard error."""

from __future__ import annotations

import sys

from notchwork.findings import safe


def complain(message: str) -> None:
    """One line on standard error, after what was printed before."""
    sys.stdout.flush()
    print(f"notchwork: {safe(message)}", file=sys.stderr)
