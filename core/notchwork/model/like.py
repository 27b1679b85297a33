"""Pieces with what they take over from the piece they are like."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from notchwork.model.pattern import Pattern
from notchwork.model.piece import Piece

_SHAPES = ("outline", "outlines", "strip")
_NAMED = ("edges", "notches", "darts", "pleats", "inner", "marks", "cutouts")


def resolved_pieces(pattern: Pattern) -> dict[str, Piece]:
    """Every piece complete: merged key by key down to one named edge, notch, dart or inner line.

    A stated object replaces its namesake, None removes it; outline, outlines and strip replace each other. Chains are
    followed. Raises KeyError for an unknown piece and ValueError for a cycle; the document room refuses both before.
    """
    done: dict[str, Piece] = {}
    for ident in pattern.pieces:
        chain = [ident]
        while chain[-1] not in done and (like := pattern.pieces[chain[-1]].like) is not None:
            if like in chain:
                raise ValueError(f"pieces are like each other in a circle: {' -> '.join((*chain, like))}")
            chain.append(like)
        for name in reversed(chain):
            if name not in done:
                piece = pattern.pieces[name]
                whole = piece if piece.like is None else _merged(done[piece.like], piece)
                done[name] = _without_removed(whole)
    return {ident: done[ident] for ident in pattern.pieces}


def root_of(pattern: Pattern, ident: str) -> str:
    """The piece at the end of the chain of ``like`` that starts at ``ident``."""
    while (like := pattern.pieces[ident].like) is not None:
        ident = like
    return ident


def _merged(base: Piece, own: Piece) -> Piece:
    """The piece ``own`` on top of the complete piece ``base``."""
    values: dict[str, Any] = {}
    states_shape = any(getattr(own, key) is not None for key in _SHAPES)
    for f in fields(Piece):
        stated = getattr(own, f.name)
        if f.name in ("like", "removed", "written") or f.name in own.removed:
            values[f.name] = stated
        elif f.name in _NAMED or f.name == "extra":
            values[f.name] = {**getattr(base, f.name), **stated}
        elif f.name in (*_SHAPES, "outline_is") and states_shape:
            values[f.name] = stated
        else:
            values[f.name] = stated if stated is not None else getattr(base, f.name)
    return Piece(**values)


def _without_removed(piece: Piece) -> Piece:
    """Drop the None entries that remove a namesake."""

    def kept(named: Mapping[str, Any]) -> dict[str, Any]:
        return {name: value for name, value in named.items() if value is not None}

    changed: dict[str, Any] = {key: kept(getattr(piece, key)) for key in _NAMED}
    return replace(piece, **changed)
