"""Seams that the letters of this program's own drawings state in full."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from notchwork.document import read_pattern
from notchwork.document.codec import document_of
from notchwork.document.pointers import parts_of
from notchwork.drawing import Drawing, Meaning
from notchwork.findings import Finding, Place, Severity
from notchwork.model import Pattern, Seam
from notchwork.recognise.words.rules import NO_LONGER_FITS

SIGNS: frozenset[Meaning | None] = frozenset({"match", "limit"})
"""What is drawn of seams and openings; nothing of a piece."""


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


def own_seams(pattern: Pattern, drawing: Drawing) -> tuple[Mapping[str, Seam], list[Finding]]:
    """The seams that letters state, in the order of the letters, each judged as in any document; what does not fit the pieces
    is left out and told."""
    stated = _stated(drawing)
    if not stated:
        return {}, []
    document = document_of(replace(pattern, seams={}, unit="mm"))
    lost: list[Finding] = []
    while stated:
        document["seams"] = stated
        read = read_pattern(json.dumps(document).encode(), "the drawing")
        faults = [fault for fault in read.faults if fault.rule.grade is Severity.ERROR]
        if read.pattern is not None and not faults:
            return read.pattern.seams, lost
        places = (parts_of(fault.place.pointer or "") for fault in faults)
        unfit = {parts[1] for parts in places if len(parts) > 1 and parts[0] == "seams"} & set(stated)
        if not unfit:
            # Nothing can be said of seams where the pieces themselves are not what a document may hold.
            lost += [_lost(name) for name in stated]
            break
        lost += [_lost(name) for name in stated if name in unfit]
        stated = {name: seam for name, seam in stated.items() if name not in unfit}
    return {}, lost


def _stated(drawing: Drawing) -> dict[str, Any]:
    """What the letters state, by seam, in the order of the alphabet."""
    found: dict[str, tuple[str, Any]] = {}
    for group in drawing.groups:
        for text in group.texts:
            seam, states = text.facts.get("seam"), text.facts.get("states")
            if text.meaning == "match" and isinstance(seam, str) and isinstance(states, str):
                try:
                    found.setdefault(seam, (text.words, json.loads(states)))
                except (ValueError, RecursionError):
                    continue
    by_letter = sorted(found.items(), key=lambda item: (len(item[1][0]), item[1][0]))
    return {seam: stated for seam, (_, stated) in by_letter}


def _lost(seam: str) -> Finding:
    return Finding(
        NO_LONGER_FITS,
        Place(),
        "The seam {what}, which its letter states, does not fit what is drawn, so it is left out.",
        "State it anew, or draw what it names as before.",
        {"what": seam},
    )
