"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_sleeves.cap_ease import cap_ease
from notchwork_plugins.checks_sleeves.unequal_below_notches import unequal_below_notches


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (cap_ease, unequal_below_notches)
