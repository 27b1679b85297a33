"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_hems.too_deep import too_deep
from notchwork_plugins.checks_hems.unlike import unlike


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (too_deep, unlike)
