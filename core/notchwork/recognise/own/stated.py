"""What letters and lines of a drawing state, taken from their facts; nothing of it is judged yet."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from notchwork.drawing import Drawing, Fact, Facts, Group, Meaning, Stroke
from notchwork.recognise.shape import Complexes
from notchwork.recognise.words.ids import valid

SIGNS: frozenset[Meaning | None] = frozenset({"match", "limit"})
"""What is drawn of seams and openings; nothing of a piece."""


@dataclass(frozen=True, slots=True, eq=False)
class StatedLine:
    """What one stroke states of its nodes: with each one's share of the stroke's length before it.

    ``cubics`` are in the frame of its piece, in mm; an edge states the one before it, at whose end it ``starts``.
    """

    piece: str
    line: str
    is_edge: bool
    size: str | None
    cubics: Complexes
    nodes: tuple[tuple[float, Mapping[str, Any]], ...]
    starts: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Stated:
    """Everything that a drawing states: seams in the order of their letters, openings and materials, by id; what edges state
    beside what is drawn, by (piece, edge); and lines with nodes that have words of their own."""

    seams: Mapping[str, Any] = field(default_factory=dict)
    openings: Mapping[str, Any] = field(default_factory=dict)
    materials: Mapping[str, Any] = field(default_factory=dict)
    edges: Mapping[tuple[str, str], Mapping[str, Any]] = field(default_factory=dict)
    lines: tuple[StatedLine, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.seams or self.openings or self.materials or self.edges or self.lines)


def without_signs(drawing: Drawing) -> Drawing:
    """The drawing without the letters of seams, the limits of gathers and the ends of openings."""
    groups = tuple(
        replace(
            group,
            strokes=tuple(stroke for stroke in group.strokes if stroke.meaning not in SIGNS),
            texts=tuple(text for text in group.texts if text.meaning not in SIGNS),
        )
        if SIGNS & {*(stroke.meaning for stroke in group.strokes), *(text.meaning for text in group.texts)}
        else group
        for group in drawing.groups
    )
    return replace(drawing, groups=groups)


def stated_in(drawing: Drawing, idents: Mapping[str, str], scale: float) -> Stated:
    """What a drawing states. ``idents`` are the pieces' ids by those that the drawing gives them, ``scale`` what its lengths
    are multiplied by."""
    openings: dict[str, Any] = {}
    edges: dict[tuple[str, str], Mapping[str, Any]] = {}
    lines: list[StatedLine] = []
    for group, stroke, said in _lines(drawing):
        piece = idents.get(str(group.facts.get("piece") or group.name))
        name = _name(stroke.facts)
        if piece is None or name is None:
            continue
        is_edge = "name" not in stroke.facts
        for ident, opening in _entries(said, "openings").items():
            openings.setdefault(ident, opening)
        if is_edge and (words := _entries(said, "edge")):
            edges.setdefault((piece, name), words)
        nodes = tuple(_nodes(said.get("nodes")))
        if nodes:
            size = _word(stroke.facts, "size")
            cubics, starts = stroke.cubics * scale, valid(str(said.get("from", "")))
            lines.append(StatedLine(piece, name, is_edge, size, cubics, nodes, starts))
    return Stated(_seams(drawing), openings, _materials(drawing), edges, tuple(lines))


def _seams(drawing: Drawing) -> dict[str, Any]:
    """What the letters state, by seam, in the order of the alphabet."""
    found: dict[str, tuple[str, Any]] = {}
    for group in drawing.groups:
        for text in group.texts:
            seam, states = text.facts.get("seam"), _json(text.facts)
            if text.meaning == "match" and isinstance(seam, str) and states is not None:
                found.setdefault(seam, (text.words, states))
    by_letter = sorted(found.items(), key=lambda item: (len(item[1][0]), item[1][0]))
    return {seam: stated for seam, (_, stated) in by_letter}


def _materials(drawing: Drawing) -> dict[str, Any]:
    """What cut orders state of their materials."""
    found: dict[str, Any] = {}
    for group in drawing.groups:
        for text in group.texts:
            said = _json(text.facts) if "quantity" in text.facts else None
            if isinstance(said, dict):
                for ident, material in _entries(said, "materials").items():
                    found.setdefault(valid(ident), material)
    return found


def _lines(drawing: Drawing) -> Iterator[tuple[Group, Stroke, Mapping[str, Any]]]:
    """The strokes that state anything, but for those of further copies."""
    for group in drawing.groups:
        if "copy" not in group.facts:
            for stroke in group.strokes:
                said = None if "copy" in stroke.facts else _json(stroke.facts)
                if isinstance(said, dict) and len(stroke.cubics):
                    yield group, stroke, said


def _json(facts: Facts) -> Any:
    """What facts state; None where it is no JSON any more."""
    states = facts.get("states")
    if not isinstance(states, str):
        return None
    try:
        return json.loads(states)
    except (ValueError, RecursionError):
        return None


def _name(facts: Facts) -> str | None:
    name = _word(facts, "name") or _word(facts, "edge")
    return valid(name) if name else None


def _word(facts: Facts, key: Fact) -> str | None:
    value = facts.get(key)
    return None if value is None else str(value)


def _entries(said: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    entries = said.get(key)
    return entries if isinstance(entries, dict) else {}


def _nodes(said: Any) -> Iterator[tuple[float, Mapping[str, Any]]]:
    for entry in said if isinstance(said, list) else ():
        match entry:
            case [int() | float() as share, dict() as words] if 0.0 <= share <= 1.0:
                yield float(share), words
