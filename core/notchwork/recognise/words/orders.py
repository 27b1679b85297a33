"""Cut orders and materials, from facts or from what is written on a piece."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from notchwork.drawing import Text
from notchwork.model import Cut, Material, Sized
from notchwork.recognise.words.cut_words import Order, cut_orders, is_interfacing
from notchwork.recognise.words.ids import slug, valid


class Orders(NamedTuple):
    """The cut orders of a piece, their materials, and whether one says that it is cut on the fold.

    ``paired``: an even number was taken as pairs though no word says so.
    """

    cut: tuple[Cut, ...]
    materials: dict[str, Material]
    on_fold: bool
    paired: bool


def orders_of(said: Sequence[tuple[Order, str]], stated: Sequence[Text], folded: bool) -> Orders:
    """The cut orders that words give (``said``) and those that texts carry as facts (``stated``)."""
    cuts: list[Cut] = []
    materials: dict[str, Material] = {}
    for cut, named in _from_facts(stated):
        cuts.append(cut)
        materials |= {ident: material for ident, material in named.items() if ident not in materials}
    paired = False
    for order, _ in said:
        ident = None
        if order.material is not None:
            ident = slug(order.material)
            kind: Literal["interfacing", "cloth"] = (
                "interfacing" if is_interfacing(order.material) else "cloth"
            )
            name = order.material[:1].upper() + order.material[1:]
            materials.setdefault(ident, Material(name=name, kind=kind))
        guessed = order.pairs is None and order.count % 2 == 0 and not folded and not order.on_fold
        paired |= guessed
        mirrored = order.pairs is True or guessed
        cuts.append(
            Cut(
                material=ident or None,
                count=order.count,
                mirrored=mirrored and not folded,
                hand="mirrored" if order.turned else None,
            )
        )
    return Orders(tuple(cuts), materials, any(order.on_fold for order, _ in said), paired)


def _from_facts(stated: Sequence[Text]) -> list[tuple[Cut, dict[str, Material]]]:
    """Texts that carry their order as facts; one for every size where the number is not the same in all."""
    grouped: dict[tuple[str, bool, bool], dict[str | None, float]] = {}
    words: dict[tuple[str, bool, bool], str] = {}
    for text in stated:
        facts = text.facts
        key = (str(facts.get("material", "")), facts.get("kind") == "mirrored", facts.get("use") == "turned")
        size = facts.get("size")
        # Words that were edited since go before the fact that stayed behind.
        read = cut_orders(text.words.partition(": ")[2] if size is not None else text.words)
        number = float(read[0].count) if read else float(facts["quantity"])
        while (str(size) if size is not None else None) in grouped.get(key, {}):
            key = (key[0] + " ", key[1], key[2])
        grouped.setdefault(key, {})[str(size) if size is not None else None] = number
        words[key] = text.words
    found: list[tuple[Cut, dict[str, Material]]] = []
    for key, counts in grouped.items():
        idents = tuple(valid(ident) for ident in key[0].strip().split(".") if ident)
        count: Sized = counts[None] if None in counts else {str(size): n for size, n in counts.items()}
        names = _material_names(words[key], len(idents))
        named = {ident: Material(name=name) for ident, name in zip(idents, names, strict=True)}
        cut = Cut(
            material=idents[0] if len(idents) == 1 else None,
            plies=idents if len(idents) > 1 else None,
            count=count,
            mirrored=key[1],
            hand="mirrored" if key[2] else None,
        )
        found.append((cut, named))
    return found


def _material_names(words: str, count: int) -> list[str | None]:
    """What the materials are called in "2 × Sateen with Voile, in pairs"."""
    called = words.partition("×")[2].partition(",")[0].strip().split(" with ")
    return [*called] if len(called) == count else [None] * count
