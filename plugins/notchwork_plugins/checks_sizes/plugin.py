"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return ()
