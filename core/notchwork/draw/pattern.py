"""The whole pattern: every piece with its sizes one on another, side by side, at life size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork.draw.layout import in_rows
from notchwork.draw.legend import legend
from notchwork.draw.lettering import edge_texts, piece_texts, size_texts
from notchwork.draw.outlines import outline_strokes
from notchwork.draw.signs import (
    dart_dots,
    dart_strokes,
    fold_texts,
    grain_strokes,
    mark_parts,
    notch_strokes,
    pleat_strokes,
)
from notchwork.drawing import Drawing, Group, Stroke, Text
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.cutlines import CutLine, cut_lines

FOLD_TYPE = 5.0


def draw_pattern(
    nest: Nest, sizes: Sequence[str] | None = None, pieces: Sequence[str] | None = None
) -> Drawing:
    """A drawing of the pattern, one group a piece (named by its id), in mm at life size.

    ``sizes`` and ``pieces`` choose what is drawn, all if None. Every piece keeps its own coordinates; where it lies on the
    drawing is its group's shift. Pieces of which no shape is known are left out. Raises KeyError for a name there is not.
    """
    chosen = [nest.pieces[ident] for ident in (nest.pieces if pieces is None else pieces)]
    numbers = list(range(len(nest.sizes)))
    if sizes is not None:
        known = {name: k for k, name in enumerate(nest.sizes)}
        numbers = [known[size] for size in sizes]
    shown = [graded for graded in chosen if graded.has_shape and any(graded.present[k] for k in numbers)]
    cuts = cut_lines(nest, [graded.id for graded in shown])
    groups = [_piece(nest, graded, numbers, cuts) for graded in shown]
    names = tuple(str(nest.sizes[k]) for k in numbers if nest.sizes[k] is not None)
    base = nest.sizes[nest.base]
    groups = list(in_rows([*groups, legend(groups, names, base)])) if groups else []
    return Drawing(tuple(groups), nest.pattern.title or "", names, base, rules=_rules(nest))


def _piece(
    nest: Nest, graded: GradedPiece, numbers: Sequence[int], cuts: Mapping[tuple[str, int], CutLine]
) -> Group:
    there = [size for size in numbers if graded.present[size]]
    main = nest.base if nest.base in there else there[0]
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for size in there:
        strokes += outline_strokes(nest, graded, size, cuts[graded.id, size])
        strokes += dart_strokes(nest, graded, size)
        strokes += pleat_strokes(nest, graded, size)
        strokes += notch_strokes(nest, graded, size)
    strokes += grain_strokes(nest, graded, main)
    marks = list(mark_parts(nest, graded, main))
    strokes += [part for part in marks if isinstance(part, Stroke)]
    texts += fold_texts(nest, graded, main, FOLD_TYPE)
    texts += edge_texts(nest, graded, there[0])
    texts += size_texts(nest, graded, there)
    texts += [part for part in marks if isinstance(part, Text)]
    texts += piece_texts(nest, graded, main, [s for s in strokes if s.meaning != "cut"], texts)
    dots = tuple(dot for size in there for dot in dart_dots(nest, graded, size))
    return Group(
        graded.id, tuple(strokes), dots, tuple(texts), facts={"piece": graded.id, "name": graded.name}
    )


def _rules(nest: Nest) -> Mapping[str, Mapping[str, complex]]:
    return {name: dict(rule) for name, rule in nest.pattern.grade_rules.items()}
