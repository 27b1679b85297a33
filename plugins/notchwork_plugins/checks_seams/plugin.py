"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_seams.allowance_too_narrow import allowance_too_narrow
from notchwork_plugins.checks_seams.allowances_differ import allowances_differ
from notchwork_plugins.checks_seams.between_is_no_station import between_is_no_station
from notchwork_plugins.checks_seams.does_not_run_on import does_not_run_on
from notchwork_plugins.checks_seams.ease_not_as_stated import ease_not_as_stated
from notchwork_plugins.checks_seams.fullness_not_as_stated import fullness_not_as_stated
from notchwork_plugins.checks_seams.fullness_not_stated import fullness_not_stated
from notchwork_plugins.checks_seams.joint_not_joined import joint_not_joined
from notchwork_plugins.checks_seams.left_to_level import left_to_level
from notchwork_plugins.checks_seams.meeting_is_ambiguous import meeting_is_ambiguous
from notchwork_plugins.checks_seams.none_stated import none_stated
from notchwork_plugins.checks_seams.notches_differ import notches_differ
from notchwork_plugins.checks_seams.stations_cross import stations_cross
from notchwork_plugins.checks_seams.stations_do_not_meet import stations_do_not_meet
from notchwork_plugins.checks_seams.unequal_length import unequal_length
from notchwork_plugins.checks_seams.wrong_way import wrong_way


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (
        unequal_length,
        stations_do_not_meet,
        ease_not_as_stated,
        fullness_not_as_stated,
        fullness_not_stated,
        notches_differ,
        stations_cross,
        left_to_level,
        between_is_no_station,
        meeting_is_ambiguous,
        wrong_way,
        joint_not_joined,
        allowances_differ,
        allowance_too_narrow,
        none_stated,
        does_not_run_on,
    )
