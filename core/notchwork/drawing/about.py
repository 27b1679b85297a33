"""What is to be said of a pattern as a whole, for those who get it on paper."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CutRow:
    """A piece as it is called, its group's name in the drawing, and its cut orders in words, one line each."""

    piece: str
    group: str
    orders: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class About:
    """Words for a first page: empty where the pattern says nothing. ``cautions`` are sentences that always stand there."""

    author: str = ""
    license: str = ""
    description: str = ""
    cautions: tuple[str, ...] = ()
    cuts: tuple[CutRow, ...] = ()
