"""What this family declares."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.host import hookimpl
from notchwork_plugins.checks_pieces.bias_off import bias_off
from notchwork_plugins.checks_pieces.edge_tiny import edge_tiny
from notchwork_plugins.checks_pieces.encloses_nothing import encloses_nothing
from notchwork_plugins.checks_pieces.fold_corner import fold_corner
from notchwork_plugins.checks_pieces.fold_not_straight import fold_not_straight
from notchwork_plugins.checks_pieces.grain_against_fold import grain_against_fold
from notchwork_plugins.checks_pieces.grain_missing import grain_missing
from notchwork_plugins.checks_pieces.line_outside import line_outside
from notchwork_plugins.checks_pieces.node_repeated import node_repeated
from notchwork_plugins.checks_pieces.off_its_edge import off_its_edge
from notchwork_plugins.checks_pieces.outline_crosses_itself import outline_crosses_itself
from notchwork_plugins.checks_pieces.outline_not_known import outline_not_known
from notchwork_plugins.checks_pieces.overlaps_unfolded import unfolded_overlaps_itself


@hookimpl
def notchwork_checks() -> tuple[Check, ...]:
    return (
        outline_not_known,
        outline_crosses_itself,
        encloses_nothing,
        edge_tiny,
        node_repeated,
        off_its_edge,
        line_outside,
        grain_missing,
        grain_against_fold,
        bias_off,
        fold_not_straight,
        fold_corner,
        unfolded_overlaps_itself,
    )
