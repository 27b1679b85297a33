"""The whole pattern: every piece with its sizes one on another, side by side, at life size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from notchwork.draw.about import about
from notchwork.draw.cutting import DrawnCuts, cut_strokes, drawn_cuts
from notchwork.draw.layout import in_rows
from notchwork.draw.legend import legend, test_square
from notchwork.draw.lettering import edge_texts, piece_texts, size_texts
from notchwork.draw.opened import images
from notchwork.draw.options import Options
from notchwork.draw.outlines import edge_strokes, inner_strokes
from notchwork.draw.signs import (
    dart_parts,
    fold_texts,
    grain_strokes,
    mark_parts,
    notch_strokes,
    pleat_strokes,
)
from notchwork.drawing import Dot, Drawing, Fact, Group, Stroke, Text
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.unfold import copies

Part = Stroke | Dot | Text


def draw_pattern(nest: Nest, options: Options | None = None) -> Drawing:
    """A drawing of the pattern, one group a piece (named by its id), in mm at life size.

    Every piece keeps its own coordinates; where it lies on the drawing is its group's shift. Pieces of which no shape is
    known are left out. Raises KeyError for a piece or size there is not.
    """
    options = options or Options()
    chosen = [nest.pieces[ident] for ident in (nest.pieces if options.pieces is None else options.pieces)]
    known = {name: k for k, name in enumerate(nest.sizes)}
    sizes = [known[name] for name in (nest.sizes if options.sizes is None else options.sizes)]
    shown = [graded for graded in chosen if graded.has_shape and any(graded.present[k] for k in sizes)]
    cuts = drawn_cuts(nest, shown) if options.allowances else {}
    groups = [_piece(nest, graded, sizes, cuts, options) for graded in shown]
    names = tuple(str(nest.sizes[k]) for k in sizes if nest.sizes[k] is not None)
    base = nest.sizes[nest.base]
    said = about(nest.pattern, groups)
    if groups:
        groups = list(in_rows([*groups, legend(groups, names, base), test_square(nest.pattern.unit)]))
    return Drawing(
        tuple(groups),
        nest.pattern.title or "",
        names,
        base,
        rules=_rules(nest),
        unit=nest.pattern.unit,
        about=said,
    )


def _piece(
    nest: Nest,
    graded: GradedPiece,
    sizes: Sequence[int],
    cuts: DrawnCuts,
    options: Options,
) -> Group:
    there = [size for size in sizes if graded.present[size]]
    main_first = sorted(there, key=lambda size: size != nest.base)
    main = main_first[0]
    moves = {size: copies(nest, graded, size) for size in there} if options.unfolded else {}
    opened = moves[main][1] if options.unfolded else frozenset[str]()
    is_stitch_line = graded.written.outline_is is None
    parts: list[Part] = [
        part
        for size in there
        for part in (
            *(cut_strokes(nest, graded, size, cuts, opened) if cuts and is_stitch_line else ()),
            *edge_strokes(nest, graded, size, opened),
            *inner_strokes(nest, graded, size),
            *pleat_strokes(nest, graded, size),
            *notch_strokes(nest, graded, size),
        )
    ]
    parts += dart_parts(nest, graded, there)
    parts += grain_strokes(nest, graded, main_first)
    parts += mark_parts(nest, graded, main_first)
    parts += fold_texts(nest, graded, main, opened)
    parts += edge_texts(nest, graded, there[0])
    parts += size_texts(nest, graded, there)
    lines = [part for part in parts if isinstance(part, Stroke)]
    words = [part for part in parts if isinstance(part, Text)]
    parts += piece_texts(nest, graded, main_first, lines, words, bool(opened))
    if options.unfolded:
        by_name = {nest.sizes[size]: found for size, (found, _) in moves.items()}
        by_name[None] = moves[main][0]
        parts += images([part for part in parts if not isinstance(part, Text)], by_name)
    return Group(
        graded.id,
        tuple(part for part in parts if isinstance(part, Stroke)),
        tuple(part for part in parts if isinstance(part, Dot)),
        tuple(part for part in parts if isinstance(part, Text)),
        facts=dict(_facts(graded)),
    )


def _facts(graded: GradedPiece) -> Iterator[tuple[Fact, str]]:
    """What is to be said of a piece that no line of it says."""
    piece = graded.written
    yield "piece", graded.id
    yield "name", graded.name
    grain = piece.grain if piece.strip is None else piece.strip.grain
    if piece.strip is not None:
        yield "kind", "strip"
    if piece.use is not None:
        yield "use", piece.use
    if grain is not None:
        yield "grain", grain
    if piece.bias_to is not None:
        yield "to", piece.bias_to


def _rules(nest: Nest) -> Mapping[str, Mapping[str, complex]]:
    return {name: dict(rule) for name, rule in nest.pattern.grade_rules.items()}
