"""What a pattern can use and a format may or may not be able to carry."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from notchwork.model import Pattern, Piece


class Feature(StrEnum):
    """The things of a pattern, one by one; the value is what a person calls several of them."""

    TITLE = "title"
    CREDITS = "credits"
    SIZES = "sizes"
    OUTLINES = "drawn outlines"
    TAPED_EDGES = "edges measured by tape"
    EDGE_NAMES = "names of edges"
    ALLOWANCES = "allowances"
    FINISHES = "finishes"
    FOLDS = "folds"
    NOTCHES = "notches"
    DARTS = "darts"
    PLEATS = "pleats"
    INNER_LINES = "inner lines"
    MARKS = "marks"
    CUTOUTS = "cut-outs"
    GRAINLINES = "grainlines"
    CUT_ORDERS = "cut orders"
    MATERIALS = "materials"
    SEAMS = "seams"
    OPENINGS = "openings"
    NOTIONS = "notions"
    BODY = "body measures and girths"
    ORDER = "order of sewing"
    JUDGEMENTS = "tolerances and accepted findings"
    NOTES = "notes"
    EXTRA = "keys that start with x-"


EVERYTHING = frozenset(Feature)

DRAWN = frozenset(
    {
        Feature.TITLE,
        Feature.SIZES,
        Feature.OUTLINES,
        Feature.EDGE_NAMES,
        Feature.ALLOWANCES,
        Feature.FOLDS,
        Feature.NOTCHES,
        Feature.DARTS,
        Feature.PLEATS,
        Feature.INNER_LINES,
        Feature.MARKS,
        Feature.CUTOUTS,
        Feature.GRAINLINES,
        Feature.CUT_ORDERS,
    }
)
"""What a drawing shows, or says beside what it shows; the rest can only travel in the document attached to it."""


def uses(pattern: Pattern) -> Mapping[Feature, int]:
    """How many of each thing the pattern has, as its maker wrote them (a piece like another is counted by what it adds)."""
    counts = {
        Feature.TITLE: int(pattern.title is not None),
        Feature.CREDITS: sum(
            value is not None
            for value in (
                pattern.author,
                pattern.license,
                pattern.description,
                pattern.language,
                pattern.identifier,
                pattern.created,
                pattern.modified,
            )
        ),
        Feature.SIZES: len(pattern.sizes.names) if pattern.sizes is not None else 0,
        Feature.MATERIALS: len(pattern.materials),
        Feature.SEAMS: len(pattern.seams),
        Feature.OPENINGS: len(pattern.openings),
        Feature.NOTIONS: len(pattern.notions),
        Feature.BODY: len(pattern.body) + len(pattern.girths),
        Feature.ORDER: len(pattern.order),
        Feature.JUDGEMENTS: len(pattern.tolerances)
        + len(pattern.accepted)
        + sum(len(seam.tolerances) + (seam.tolerance is not None) for seam in pattern.seams.values()),
        Feature.NOTES: sum(
            thing.note is not None
            for named in (pattern.pieces, pattern.seams, pattern.openings, pattern.notions, pattern.materials)
            for thing in named.values()
        ),
        Feature.EXTRA: len(pattern.extra)
        + sum(len(thing.extra) for named in (pattern.pieces, pattern.seams) for thing in named.values()),
    }
    for piece in pattern.pieces.values():
        for feature, count in _of_piece(piece).items():
            counts[feature] = counts.get(feature, 0) + count
    return {feature: counts[feature] for feature in Feature if counts.get(feature)}


def _of_piece(piece: Piece) -> Mapping[Feature, int]:
    edges = [edge for edge in piece.edges.values() if edge is not None]
    outlines = [nodes for nodes in (piece.outline, *(piece.outlines or {}).values()) if nodes is not None]
    return {
        Feature.OUTLINES: int(bool(outlines) or piece.strip is not None),
        Feature.TAPED_EDGES: sum(edge.length is not None for edge in edges),
        Feature.EDGE_NAMES: max(
            (sum(node.edge is not None for node in nodes) for nodes in outlines), default=0
        ),
        Feature.ALLOWANCES: (piece.allowance is not None) + sum(edge.allowance is not None for edge in edges),
        Feature.FINISHES: sum(edge.finish is not None for edge in edges),
        Feature.FOLDS: sum(edge.fold for edge in edges),
        Feature.NOTCHES: len(piece.notches),
        Feature.DARTS: len(piece.darts),
        Feature.PLEATS: len(piece.pleats),
        Feature.INNER_LINES: len(piece.inner),
        Feature.MARKS: len(piece.marks),
        Feature.CUTOUTS: len(piece.cutouts),
        Feature.GRAINLINES: int(piece.grainline is not None or piece.grain is not None),
        Feature.CUT_ORDERS: len(piece.cut or ()),
    }
