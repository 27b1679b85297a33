"""The whole pattern: every piece with its sizes one on another, side by side, at life size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from notchwork.draw.about import about
from notchwork.draw.copies import Copy, as_copy, copies_cut, is_cut_from
from notchwork.draw.cutting import DrawnCuts, cut_strokes, drawn_cuts
from notchwork.draw.layout import in_rows
from notchwork.draw.legend import legend, test_square
from notchwork.draw.lettering import edge_texts, piece_texts, size_texts
from notchwork.draw.limits import Limit, limit_parts, limits_of
from notchwork.draw.matching import match_labels
from notchwork.draw.numbering import numbering, numbers
from notchwork.draw.opened import images
from notchwork.draw.options import Options
from notchwork.draw.orders import cut_orders
from notchwork.draw.outlines import edge_strokes, inner_strokes
from notchwork.draw.plate import Plate
from notchwork.draw.signs import (
    dart_parts,
    fold_texts,
    grain_strokes,
    mark_parts,
    notch_strokes,
    pleat_strokes,
)
from notchwork.draw.stating import LineKey, line_statements, openings_stated
from notchwork.draw.stretches import Taken, taken_stretches
from notchwork.drawing import Dot, Drawing, Fact, Group, Stroke, Text
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.unfold import copies as unfolding

Part = Stroke | Dot | Text


def draw_pattern(nest: Nest, options: Options | None = None) -> Drawing:
    """A drawing of the pattern, one group a piece (named by its id) or a copy of one, in mm at life size.

    Every piece keeps its own coordinates; where it lies on the drawing is its group's shift. Pieces of which no shape is
    known are left out. Raises KeyError for a piece or size there is not.
    """
    options = options or Options()
    chosen = [nest.pieces[ident] for ident in (nest.pieces if options.pieces is None else options.pieces)]
    known = {name: k for k, name in enumerate(nest.sizes)}
    sizes = [known[name] for name in (nest.sizes if options.sizes is None else options.sizes)]
    shown = [
        graded
        for graded in chosen
        if graded.has_shape
        and any(graded.present[k] for k in sizes)
        and is_cut_from(graded, options.materials)
    ]
    cuts = drawn_cuts(nest, shown) if options.allowances else {}
    opening = openings_stated(nest) if options.document else {}
    pen = _Pen(nest, options, cuts, taken_stretches(nest), limits_of(nest), opening, numbers(nest))
    groups = [group for graded in shown for group in pen.drawn(graded, sizes)]
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


@dataclass(frozen=True, slots=True)
class _Pen:
    """What is needed to draw any piece of the pattern; stretches, limits and numbers are by piece, openings by line."""

    nest: Nest
    options: Options
    cuts: DrawnCuts
    taken: Mapping[str, Sequence[Taken]]
    limits: Mapping[str, Sequence[Limit]]
    openings: Mapping[LineKey, Mapping[str, Any]]
    numbers: Mapping[str, tuple[int, int]]

    def drawn(self, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Group]:
        """The piece, once or in all its copies."""
        there = [size for size in sizes if graded.present[size]]
        if not self.options.copies or not graded.written.cut:
            yield self._piece(graded, there)
            return
        for copy in copies_cut(self.nest, graded, there, self.options.materials):
            yield as_copy(self._piece(graded, copy.sizes, copy), copy)

    def _piece(self, graded: GradedPiece, there: Sequence[int], copy: Copy | None = None) -> Group:
        nest = self.nest
        main_first = sorted(there, key=lambda size: size != nest.base)
        opens = self.options.unfolded
        moves = {size: unfolding(nest, graded, size) for size in there} if opens else {}
        opened = moves[main_first[0]][1] if opens else frozenset[str]()
        parts = list(self._lines(graded, there, main_first, opened))
        plate = Plate(part.cubics for part in parts if isinstance(part, Stroke))
        for part in parts:
            if isinstance(part, Text):
                plate.write(part.box)
        parts += match_labels(
            nest, graded, self.taken.get(graded.id, ()), there[0], plate, self.options.document
        )
        parts += limit_parts(nest, graded, self.limits.get(graded.id, ()), there, plate)
        parts += edge_texts(nest, graded, there[0], plate)
        names = [name for size in there if (name := nest.sizes[size]) is not None]
        said = [
            *cut_orders(nest, graded, main_first, bool(opened), self.options.document),
            numbering(self.numbers[graded.id], names),
            *([copy.line] if copy is not None and copy.of > 1 else ()),
        ]
        strokes = [part for part in parts if isinstance(part, Stroke)]
        parts += piece_texts(nest, graded, main_first, strokes, said, plate)
        if opens:
            by_name = {nest.sizes[size]: found for size, (found, _) in moves.items()}
            by_name[None] = moves[main_first[0]][0]
            parts += images([part for part in parts if not isinstance(part, Text)], by_name)
        return Group(
            graded.id,
            tuple(part for part in parts if isinstance(part, Stroke)),
            tuple(part for part in parts if isinstance(part, Dot)),
            tuple(part for part in parts if isinstance(part, Text)),
            facts=dict(_facts(graded)),
        )

    def _lines(
        self,
        graded: GradedPiece,
        there: Sequence[int],
        main_first: Sequence[int],
        opened: frozenset[str],
    ) -> Iterator[Part]:
        """Lines and signs in every size, and the words that have a place of their own."""
        nest = self.nest
        is_stitch_line = graded.written.outline_is is None
        for size in there:
            if self.cuts and is_stitch_line:
                yield from cut_strokes(nest, graded, size, self.cuts, opened)
            states = line_statements(nest, graded, size, self.openings) if self.options.document else {}
            yield from edge_strokes(nest, graded, size, states, opened)
            yield from inner_strokes(nest, graded, size, states)
            yield from pleat_strokes(nest, graded, size)
            yield from notch_strokes(nest, graded, size)
        yield from dart_parts(nest, graded, there)
        yield from grain_strokes(nest, graded, main_first)
        yield from mark_parts(nest, graded, main_first)
        yield from fold_texts(nest, graded, main_first[0], opened)
        yield from size_texts(nest, graded, there)


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
