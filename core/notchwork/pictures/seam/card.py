"""One card a seam: the sign and the name, what is said, strips in all sizes, and the difference on a tape at life size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork.checks import Names, Verdict
from notchwork.pictures import ink
from notchwork.pictures.laid import laid_in_sizes
from notchwork.pictures.picture import Part, Picture
from notchwork.pictures.seam.axis import WIDTH, axis_of
from notchwork.pictures.seam.block import Block, block
from notchwork.pictures.seam.figures import wide
from notchwork.pictures.seam.head import head, sizes_words
from notchwork.pictures.seam.sizes import Layers, strips, together
from notchwork.pictures.seam.stack import layer_label
from notchwork.pictures.seam.words import says, sentences
from notchwork.pictures.signs import verdict_word
from notchwork.pictures.tokens import token
from notchwork.pictures.told import Told, told_of
from notchwork.sewing import Nest, Walk
from notchwork.sewing.letters import letters

COLUMN = 70.0
"""px: as wide as the column of sizes becomes at most."""
APART = 6.0
"""px between further sides that are drawn one under the other."""
FOOT = 8.0
"""px below the last marks."""


def seam_pictures(nest: Nest, verdict: Verdict) -> Mapping[str, Picture]:
    """A card for every seam, by its id, with all its sizes. Amounts come from the walks, what is off from the verdict."""
    names, lettered = Names(nest.pattern), letters(nest.pattern)
    return {
        ident: _card(nest, names, walk, told_of(nest, verdict, ident), lettered[ident])
        for ident, walk in nest.walks.items()
    }


def _card(nest: Nest, names: Names, walk: Walk, told: Told, letter: str) -> Picture:
    compared = [laid_in_sizes(nest, walk, comparison, told) for comparison in walk.others]
    for comparison in walk.by_notches:
        laid = laid_in_sizes(nest, walk, comparison, told)
        if not all(one.sews for one in laid):
            compared.append(laid)
    every = [one for laid in compared for one in laid]
    groups = [group for layers in together(compared) if (group := strips(nest, layers))]
    shown = [one for group in groups for _, layers in group for one in layers]
    name = names.seam(walk.id)
    marks, y = head(
        told.worst,
        letter,
        name,
        sizes_words(nest.sizes, walk.seam.closed),
        sentences(nest, names, told, every),
    )
    column = _column(groups)
    axis = axis_of(shown, walk.seam.closed, column)
    for group in groups:
        drawn, high = block(Block(nest, names, group, axis, column))
        marks.append(ink.moved(drawn, 0.0, y))
        y += high + APART
    return Picture(
        key=f"seam-{token(walk.id)}",
        width=WIDTH,
        parts=[Part(y - APART + FOOT, "".join(marks))],
        title=f"{letter} {name}: {verdict_word(told.worst)}",
        says=says(nest, names, told, every, shown),
    )


def _column(groups: Sequence[Sequence[tuple[str, Layers]]]) -> float:
    """How much room (px) the labels of sizes and of layers take at the left."""
    labels = [label for group in groups for label, _ in group]
    labels += [layer_label(one) for group in groups for _, layers in group for one in layers if one.drawn_up]
    return min(max((wide(label, "strong") + 8.0 for label in labels if label), default=0.0), COLUMN)
