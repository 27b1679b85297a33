"""One card a seam: the sign and the name, what is said, strips in all sizes, and the difference on a tape at life size."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.checks import Names, Verdict
from notchwork.pictures import ink
from notchwork.pictures.letters import letters
from notchwork.pictures.picture import Picture
from notchwork.pictures.seam.axis import WIDTH, axis_of
from notchwork.pictures.seam.block import Block, block
from notchwork.pictures.seam.figures import wide
from notchwork.pictures.seam.head import head, sizes_words
from notchwork.pictures.seam.laid import laid_in_sizes
from notchwork.pictures.seam.sizes import strips
from notchwork.pictures.seam.told import Told, told_of
from notchwork.pictures.seam.words import says, sentences
from notchwork.pictures.signs import verdict_word
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest, Walk

COLUMN = 70.0
"""px: as wide as the column of sizes becomes at most."""
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
    shown = [strips(nest, laid) for laid in compared]
    every = [one for laid in compared for one in laid]
    name = names.seam(walk.id)
    marks, y = head(
        told.worst,
        letter,
        name,
        sizes_words(nest.sizes, walk.seam.closed),
        sentences(nest, names, told, every),
    )
    labels = [label for strip in shown for label, _ in strip if label]
    column = min(max((wide(label, "strong") + 8.0 for label in labels), default=0.0), COLUMN)
    axis = axis_of([one for strip in shown for _, one in strip], walk.seam.closed, column)
    for strip in shown:
        if strip:
            drawn = block(Block(nest, names, strip, axis, column, several=len(shown) > 1))
            marks.append(ink.moved(drawn.parts, 0.0, y))
            y += drawn.height
    return Picture(
        key=f"seam-{token(walk.id)}",
        width=WIDTH,
        height=y + FOOT,
        body="".join(marks),
        title=f"{letter} {name}: {verdict_word(told.worst)}",
        says=says(nest, names, told, every, [one for strip in shown for _, one in strip]),
    )
