"""Copies: how many units of a piece are cut in each hand, and in which hands it is cut at all."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Cut, Material
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.pieces.symmetry import falls_on_itself
from notchwork.sewing.shapes.unfold import unfolded

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Copies:
    """Units of one piece after basting, by size: as drawn, mirrored, and those that serve for ``either`` hand.

    A copy on a fold is one half of each hand (a quarter on two folds: two). Interfacing counts for nothing: it takes part in
    no seam. ``of_one_hand`` is how many of one hand the cut orders state, whatever each may serve for.
    """

    as_drawn: Floats
    mirrored: Floats
    either: Floats
    of_one_hand: Floats

    @property
    def total(self) -> Floats:
        return self.as_drawn + self.mirrored + self.either

    def lacking(self, as_drawn: Floats, mirrored: Floats) -> Floats:
        """How many copies are lacking to have so many in either hand."""
        over = np.maximum(as_drawn - self.as_drawn, 0.0) + np.maximum(mirrored - self.mirrored, 0.0)
        return np.maximum(over - self.either, 0.0)

    def turned(self) -> Copies:
        """The same copies with the hands exchanged."""
        return Copies(self.mirrored, self.as_drawn, self.either, self.of_one_hand)


def cut_in_both_hands(graded: GradedPiece) -> bool | None:
    """Whether a piece is cut on a fold or in both hands; False for one hand only, None where no cut order says."""
    if graded.folds:
        return True
    cuts = graded.written.cut
    if not cuts:
        return None
    hands = {hand for cut in cuts for hand in (("right", "left") if cut.mirrored else (cut.hand or "right",))}
    return len(hands) > 1


def stands_for_its_image(graded: GradedPiece) -> bool:
    """Whether a seam may take a piece for its own mirror image: a strip, or a piece not known to be cut in both hands."""
    return graded.is_strip or not cut_in_both_hands(graded)


def copies_of(nest: Nest, graded: GradedPiece) -> Copies | None:
    """The copies that are cut; None where no cut order says, or where it is cut from interfacing alone.

    An edge that is known by its length only may stand for its mirror image too (a front measured whole has two sides of
    one length), so a copy of such a piece counts twice and for either hand, unless it is cut in pairs or two of its edges
    are sewn to each other (a sleeve closes by itself: it is one of two).
    """
    cuts = [cut for cut in graded.written.cut or () if not _interfacing(nest, cut)]
    if not cuts:
        return None
    as_drawn, mirrored, either, stated_right, stated_left = np.zeros((5, len(nest.sizes)))
    symmetrical = graded.is_strip or (not graded.folds and falls_on_itself(nest, graded))
    for cut in cuts:
        right, left = _by_hand(nest, graded, cut)
        stated_right, stated_left = stated_right + right, stated_left + left
        if _measured_whole(nest, graded, cut):
            either = either + 2 * (right + left)
        elif symmetrical or _two_faced(nest, cut):
            either = either + right + left
        else:
            as_drawn, mirrored = as_drawn + right, mirrored + left
    return Copies(as_drawn, mirrored, either, np.maximum(stated_right, stated_left))


def _by_hand(nest: Nest, graded: GradedPiece, cut: Cut) -> tuple[Floats, Floats]:
    """The units (sizes) of one cut order as drawn and mirrored."""
    count = np.nan_to_num(by_size(cut.count, nest.sizes))
    nothing = np.zeros_like(count)
    if graded.folds:
        return (count * halves_drawn(nest, graded),) * 2
    if cut.mirrored:
        return (np.ceil(count / 2.0),) * 2
    return (nothing, count) if cut.hand == "mirrored" else (count, nothing)


def _measured_whole(nest: Nest, graded: GradedPiece, cut: Cut) -> bool:
    """Whether a piece known by lengths only may hold both halves: it is not cut in pairs, on a fold, nor closes by itself."""
    if graded.has_shape or graded.is_strip or graded.folds or cut.mirrored:
        return False
    return not any(
        one.piece == other.piece == graded.id and one.line != other.line
        for seam in nest.pattern.seams.values()
        for side, further in combinations(seam.sides, 2)
        for one, other in product(side.spans, further.spans)
    )


def has_spare_copies(nest: Nest, graded: GradedPiece) -> bool:
    """Whether more copies of a hand are cut than any seam takes, so that a seam may take another copy than the next does."""
    return graded.id in nest.spare


def copies_in_reserve(nest: Nest, graded: GradedPiece, in_a_hand: int, in_all: int) -> bool:
    """Whether one cut order gives more copies than a seam takes at most: so many of either hand, or in all.

    A piece cut in one hand only has none of the other, unless it falls on itself: then all its copies count.
    """
    orders = [cut for cut in graded.written.cut or () if not _interfacing(nest, cut)]
    if graded.folds or cut_in_both_hands(graded):
        counts, taken = [np.maximum(*_by_hand(nest, graded, cut)) for cut in orders], in_a_hand
    elif falls_on_itself(nest, graded):
        counts, taken = [np.add(*_by_hand(nest, graded, cut)) for cut in orders], in_all
    else:
        return False
    return any(bool(np.all(count > max(taken, 1))) for count in counts)


def only_interfacing(nest: Nest, graded: GradedPiece) -> bool:
    """Whether a piece is cut from interfacing and nothing else."""
    cuts = graded.written.cut or ()
    return bool(cuts) and all(_interfacing(nest, cut) for cut in cuts)


def halves_drawn(nest: Nest, graded: GradedPiece) -> int:
    """How many of each hand one copy holds: none without a fold, 1 on a fold, 2 where a quarter is drawn on two."""
    if not graded.folds:
        return 0
    if graded.has_shape and graded.present[nest.base]:
        return max(1, unfolded(nest, graded, nest.base).copies // 2)
    return len(graded.folds)


def _materials(nest: Nest, cut: Cut) -> list[Material]:
    return [nest.pattern.materials[name] for name in cut.materials if name in nest.pattern.materials]


def _interfacing(nest: Nest, cut: Cut) -> bool:
    materials = _materials(nest, cut)
    return bool(materials) and all(material.kind == "interfacing" for material in materials)


def _two_faced(nest: Nest, cut: Cut) -> bool:
    materials = _materials(nest, cut)
    return bool(materials) and all(
        material.two_faced if material.two_faced is not None else material.kind == "net"
        for material in materials
    )
