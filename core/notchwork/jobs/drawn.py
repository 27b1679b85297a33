"""What is to be drawn, by the names that people use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from notchwork.findings import UnknownName, plain_name
from notchwork.model import Pattern, resolved_pieces
from notchwork.sewing.names import display_names

if TYPE_CHECKING:
    from notchwork.draw import Options


def by_ids(pattern: Pattern, options: Options) -> Options:
    """The same with every piece and material by its id, in the pattern's order; they may be named as reports name them.

    Raises UnknownName for a piece, size or material that is not there.
    """
    sizes = options.sizes
    if sizes is not None:
        known = pattern.sizes.names if pattern.sizes is not None else ()
        for name in sizes:
            if name not in known:
                raise UnknownName("size", name, known)
        sizes = tuple(name for name in known if name in sizes)
    return replace(
        options,
        pieces=_ids("piece", options.pieces, display_names(resolved_pieces(pattern))),
        sizes=sizes,
        materials=_ids("material", options.materials, _material_names(pattern)),
    )


def _material_names(pattern: Pattern) -> Mapping[str, str]:
    """Every material by its own name, else by its id in plain words; those that only a cut order names too."""
    cut = (m for piece in pattern.pieces.values() for order in piece.cut or () for m in order.materials)
    names = {ident: material.name or plain_name(ident) for ident, material in pattern.materials.items()}
    return names | {ident: plain_name(ident) for ident in cut if ident not in names}


def _ids(kind: str, wanted: tuple[str, ...] | None, names: Mapping[str, str]) -> tuple[str, ...] | None:
    """The ids of what is wanted, in the order of ``names``; several things of one name are all meant."""
    if wanted is None:
        return None
    found = {ident for name in wanted for ident in _called(kind, name, names)}
    return tuple(ident for ident in names if ident in found)


def _called(kind: str, name: str, names: Mapping[str, str]) -> list[str]:
    """What a name means: an id as it is written, else what is shown by it, else an id, in any case."""
    if name in names:
        return [name]
    lower = name.lower()
    found = [ident for ident, shown in names.items() if shown.lower() == lower]
    found = found or [ident for ident in names if ident.lower() == lower]
    if not found:
        raise UnknownName(kind, name, names, names.values())
    return found
