"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_cutting.copies_do_not_suffice import copies_do_not_suffice
from notchwork_plugins.checks_cutting.edge_sewn_twice import edge_sewn_twice
from notchwork_plugins.checks_cutting.edge_unaccounted import edge_unaccounted
from notchwork_plugins.checks_cutting.mirrored_and_folded import mirrored_and_folded, mirrored_in_vain
from notchwork_plugins.checks_cutting.missing_on_some_copies import seam_missing_on_some_copies
from notchwork_plugins.checks_cutting.no_cut_order import no_cut_order
from notchwork_plugins.checks_cutting.no_room_for_allowance import no_room_for_allowance
from notchwork_plugins.checks_cutting.odd_mirrored_count import odd_mirrored_count
from notchwork_plugins.checks_cutting.strip_too_short import strip_too_short
from notchwork_plugins.checks_cutting.wider_than_material import wider_than_material


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (
        edge_unaccounted,
        edge_sewn_twice,
        copies_do_not_suffice,
        seam_missing_on_some_copies,
        no_cut_order,
        odd_mirrored_count,
        mirrored_and_folded,
        mirrored_in_vain,
        wider_than_material,
        strip_too_short,
        no_room_for_allowance,
    )
