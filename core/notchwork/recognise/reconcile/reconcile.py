"""Shapes from the drawing where they moved, everything else from the document that came along."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from notchwork.document import read_pattern, write_pattern
from notchwork.document.pointers import parts_of
from notchwork.findings import Finding, Place, Severity, plain_name
from notchwork.model import Pattern, Piece, Seam
from notchwork.recognise.reconcile.fineness import LEAST
from notchwork.recognise.reconcile.merge import with_outline, with_signs
from notchwork.recognise.reconcile.moved import Pair
from notchwork.recognise.reconcile.opened import drawn_whole
from notchwork.recognise.words import rules
from notchwork.sewing import Nest

ROUNDS = 20
"""How often what no longer fits is left out before it is given up."""

KINDS = {
    "seams": "seam",
    "openings": "opening",
    "notions": "notion",
    "girths": "girth",
    "order": "step of the order of sewing",
    "accepted": "accepted finding",
    "tolerances": "tolerance",
    "grade_rules": "grade rule",
    "materials": "material",
}


def reconcile(seen: Pattern, attached: Pattern, fine: float = LEAST) -> tuple[Pattern, tuple[Finding, ...]]:
    """The document's pattern with what was changed in the drawing since, and what is to be said of that.

    A piece whose strokes moved by more than ``fine`` (mm, any coordinate) is taken from the drawing; where none did, the
    document's pattern itself is given back. A piece that is drawn whole where the document has half of it has not moved. Seams, joins, openings, notions and orders stay as the document states them, by
    piece and edge name; what no longer fits is left out and told. Pieces that are not drawn are kept.
    """
    drawn = Nest(seen)
    before = Nest(attached)
    both = [ident for ident in attached.pieces if ident in drawn.pieces]
    common = [ident for ident in both if not drawn_whole(Pair(drawn, before, ident, fine))]
    pattern, moved = _with_shapes(seen, attached, drawn, common, fine)
    pattern, lost = _fitting(pattern)
    told = Nest(pattern)
    findings: list[Finding] = []
    pieces: dict[str, Piece] = {}
    for ident, own in pattern.pieces.items():
        pieces[ident] = own
        if ident in common:
            pair = Pair(drawn, told, ident, fine)
            pieces[ident], changed, gone = with_signs(pair, own)
            findings += _changes(ident, [*(["its outline"] if ident in moved else []), *changed], gone)
        elif ident not in both and told.pieces[ident].has_shape:
            findings.append(_not_drawn(ident))
    for ident in seen.pieces:
        if ident not in attached.pieces:
            pieces[ident] = seen.pieces[ident]
            findings.append(_added(ident))
    seams = _new_seams(seen, attached)
    if not findings and not seams and not lost:
        return attached, ()
    new_stuff = _new_materials(pieces, attached)
    pattern = replace(
        pattern,
        pieces=pieces,
        seams={**pattern.seams, **seams},
        materials={**seen.materials, **attached.materials} if new_stuff else attached.materials,
        grade_rules={**_rules_used(seen, pieces, attached), **pattern.grade_rules},
    )
    pattern, more = _fitting(pattern)
    return pattern, (*findings, *lost, *more)


def _with_shapes(
    seen: Pattern, attached: Pattern, drawn: Nest, common: Sequence[str], fine: float
) -> tuple[Pattern, list[str]]:
    """The document's pattern with the outlines that moved as they are drawn, and whose those are.

    A piece that is like one that was changed, and was itself drawn as before, keeps its outline by stating it.
    """
    before = Nest(attached)
    pattern, moved = attached, [i for i in common if Pair(drawn, before, i, fine).outline_moved]
    changed: list[str] = []
    for _ in range(len(common) + 1):
        told = Nest(_fitting(pattern)[0]) if changed else before
        left = [i for i in common if i in told.pieces and Pair(drawn, told, i, fine).outline_moved]
        # Pieces that others are like first: what is taken over follows by itself.
        first = [i for i in left if pattern.pieces[i].like not in left]
        if not first:
            break
        pieces = dict(pattern.pieces)
        for ident in first:
            if ident in moved:
                pieces[ident] = with_outline(
                    Pair(drawn, before, ident, fine), pieces[ident], seen.pieces[ident]
                )
            else:
                own = before.pieces[ident].written
                pieces[ident] = replace(
                    pieces[ident], outline=own.outline, outlines=own.outlines, strip=own.strip
                )
        changed += first
        pattern = replace(pattern, pieces=pieces)
        if len(changed) > 2 * len(common):
            break
    return pattern, moved


def _rules_used(
    seen: Pattern, pieces: Mapping[str, Piece], attached: Pattern
) -> dict[str, Mapping[str, complex]]:
    """Rules that were made for what is drawn anew, as far as something refers to them."""
    referred = repr(pieces)
    return {
        name: rule
        for name, rule in seen.grade_rules.items()
        if name not in attached.grade_rules and f"grade={name!r}" in referred
    }


def _new_materials(pieces: Mapping[str, Piece], attached: Pattern) -> bool:
    return any(
        material not in attached.materials
        for piece in pieces.values()
        for cut in piece.cut or ()
        for material in cut.materials
    )


def _new_seams(seen: Pattern, attached: Pattern) -> dict[str, Seam]:
    """Seams that labels state in the drawing, on edges that no seam of the document takes."""
    taken = {span.target for seam in attached.seams.values() for side in seam.sides for span in side.spans}
    return {
        name: seam
        for name, seam in seen.seams.items()
        if name not in attached.seams
        and not any(span.target in taken for side in seam.sides for span in side.spans)
    }


def _fitting(pattern: Pattern) -> tuple[Pattern, list[Finding]]:
    """The pattern without what refers to things that are no longer there, judged as any document is."""
    lost: list[Finding] = []
    for _ in range(ROUNDS):
        faults = [
            fault
            for fault in read_pattern(write_pattern(pattern), "the drawing").faults
            if fault.rule.grade is Severity.ERROR
        ]
        dropped = {tuple(parts_of(fault.place.pointer or "")[:4]): fault for fault in faults}
        if not dropped:
            break
        before = pattern
        for parts in sorted(dropped, reverse=True):
            pattern, finding = _without(pattern, parts)
            lost += [finding] if finding is not None else []
        if pattern == before:
            break
    return pattern, lost


def _without(pattern: Pattern, parts: tuple[str, ...]) -> tuple[Pattern, Finding | None]:
    """The pattern without the named thing that a pointer leads to."""
    if len(parts) < 2:
        return pattern, None
    section, name, *inside = parts
    if section == "pieces" and len(inside) == 2 and inside[0] not in ("outline", "outlines"):
        piece = pattern.pieces[name]
        held = getattr(piece, inside[0], None)
        if isinstance(held, Mapping) and inside[1] in held:
            kept = {key: thing for key, thing in held.items() if key != inside[1]}
            changes: dict[str, Any] = {inside[0]: kept}
            pieces = {**pattern.pieces, name: replace(piece, **changes)}
            return replace(pattern, pieces=pieces), _lost(f"{plain_name(inside[1])}", Place(piece=name))
        return pattern, None
    held = getattr(pattern, section, None)
    if isinstance(held, Mapping) and name in held and section in KINDS:
        kept = {key: thing for key, thing in held.items() if key != name}
        change: dict[str, Any] = {section: kept}
        return replace(pattern, **change), _lost(f"{KINDS[section]} {name}", Place())
    if isinstance(held, tuple) and section in KINDS and name.isdigit() and int(name) < len(held):
        rest = tuple(thing for k, thing in enumerate(held) if k != int(name))
        shorter: dict[str, Any] = {section: rest}
        return replace(pattern, **shorter), _lost(f"{KINDS[section]} {int(name) + 1}", Place())
    return pattern, None


def _lost(what: str, place: Place) -> Finding:
    return Finding(
        rules.NO_LONGER_FITS,
        place,
        "The document's {what} no longer fits what is drawn, so it is left out.",
        "State it anew, or draw what it names as before.",
        {"what": what},
        pieces=(place.piece,) if place.piece is not None else (),
    )


def _changes(ident: str, changed: list[str], gone: list[str]) -> list[Finding]:
    found: list[Finding] = []
    if changed:
        text, values = "It was changed in the drawing: {what}.", {"what": tuple(changed)}
        found.append(Finding(rules.RECONCILED, Place(piece=ident), text, values=values, pieces=(ident,)))
    if gone:
        text, values = "No longer drawn on it, so left out: {what}.", {"what": tuple(gone)}
        found.append(Finding(rules.RECONCILED, Place(piece=ident), text, values=values, pieces=(ident,)))
    return found


def _not_drawn(ident: str) -> Finding:
    return Finding(
        rules.RECONCILED,
        Place(piece=ident),
        "It is not in the drawing, so it is kept as the document has it.",
        pieces=(ident,),
    )


def _added(ident: str) -> Finding:
    return Finding(
        rules.RECONCILED,
        Place(piece=ident),
        "It is drawn, and the document does not have it: it is added.",
        pieces=(ident,),
    )
