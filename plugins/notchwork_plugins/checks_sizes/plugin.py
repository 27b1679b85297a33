"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_sizes.grows_then_shrinks import grows_then_shrinks


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (grows_then_shrinks,)
