"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_darts.apex_outside import apex_outside
from notchwork_plugins.checks_darts.crossing import crossing
from notchwork_plugins.checks_darts.flat import flat
from notchwork_plugins.checks_darts.legs_unequal import legs_unequal
from notchwork_plugins.checks_darts.lopsided import lopsided
from notchwork_plugins.checks_darts.mouth_untrue import mouth_untrue


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (legs_unequal, lopsided, flat, mouth_untrue, apex_outside, crossing)
