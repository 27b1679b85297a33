"""What of a pattern is drawn."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Options:
    """What a person may choose to have drawn; the same on every command that draws.

    ``pieces`` and ``sizes`` are names, all if None. ``unfolded``: a piece on a fold is drawn whole. ``allowances``: cut lines
    are drawn; else the stitch lines alone. ``document``: the pattern's document goes along where the format can attach it.
    """

    pieces: tuple[str, ...] | None = None
    sizes: tuple[str, ...] | None = None
    unfolded: bool = False
    allowances: bool = True
    document: bool = True
