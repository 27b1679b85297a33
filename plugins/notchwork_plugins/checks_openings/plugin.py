"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_openings.casing_too_narrow import casing_allowance_too_small, casing_too_narrow
from notchwork_plugins.checks_openings.elastic_longer_than_edge import elastic_longer_than_edge
from notchwork_plugins.checks_openings.openings_differ import openings_differ
from notchwork_plugins.checks_openings.sewn_shut import sewn_shut
from notchwork_plugins.checks_openings.zip_does_not_fit import zip_does_not_fit


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (
        openings_differ,
        sewn_shut,
        zip_does_not_fit,
        casing_too_narrow,
        casing_allowance_too_small,
        elastic_longer_than_edge,
    )
