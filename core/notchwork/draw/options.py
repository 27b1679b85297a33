"""What of a pattern is drawn."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Options:
    """What a person may choose to have drawn; the same on every command that draws.

    ``pieces``, ``sizes`` and ``materials`` are ids, all if None; of materials only the pieces that are cut from one of them.
    ``copies``: each piece stands as many times as it is cut, mirrored where the order says so; else once. ``unfolded``: a piece on a fold is drawn whole. ``allowances``: cut lines
    are drawn; else the stitch lines alone. ``document``: the pattern's document goes along where the format can attach it.
    """

    pieces: tuple[str, ...] | None = None
    sizes: tuple[str, ...] | None = None
    materials: tuple[str, ...] | None = None
    copies: bool = False
    unfolded: bool = False
    allowances: bool = True
    document: bool = True
