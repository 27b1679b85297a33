"""What is to be drawn, by the names that people use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from notchwork.findings import UnknownName
from notchwork.model import Pattern, resolved_pieces
from notchwork.sewing.names import display_names

if TYPE_CHECKING:
    from notchwork.draw import Options


def by_ids(pattern: Pattern, options: Options) -> Options:
    """The same with every piece by its id, in the pattern's order; pieces may be named as reports name them.

    Raises UnknownName for a piece or a size that is not there.
    """
    names = display_names(resolved_pieces(pattern))
    pieces, sizes = options.pieces, options.sizes
    if pieces is not None:
        wanted = {_id(name, names) for name in pieces}
        pieces = tuple(ident for ident in names if ident in wanted)
    if sizes is not None:
        known = pattern.sizes.names if pattern.sizes is not None else ()
        for name in sizes:
            if name not in known:
                raise UnknownName("size", name, known)
        sizes = tuple(name for name in known if name in sizes)
    return replace(options, pieces=pieces, sizes=sizes)


def _id(name: str, names: Mapping[str, str]) -> str:
    if name in names:
        return name
    found = [ident for ident, shown in names.items() if shown.lower() == name.lower()]
    if not found:
        raise UnknownName("piece", name, names, names.values())
    return found[0]
