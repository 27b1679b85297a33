"""The cut list: for every material the pieces, how many of each, and whether the cloth suffices as far as was checked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.checks import Graded
from notchwork.findings import Place, listed
from notchwork.model import Cut, Material
from notchwork.report.page.amounts import by_size, count, joined, length
from notchwork.report.page.markup import Section, el, link, sign, table, words
from notchwork.report.page.subject import Subject, cut_row
from notchwork.report.told import speaks
from notchwork.sewing import GradedPiece, Nest

_Entry = tuple[GradedPiece, Cut]

_LACKING = "cutting/copies-do-not-suffice"
_TOO_WIDE = "cutting/wider-than-material"
_HEADS = ("Piece", "Cut", "How", "To look at")


def cutting(subject: Subject, nest: Nest) -> Section:
    """A list for each material in the pattern's order, then what is cut from none that is named, then what is not cut."""
    placed: set[str] = set()
    parts = [
        _list(subject, nest, ident, _entries(nest, ident), placed)
        for ident in (*subject.pattern.materials, None)
    ]
    uncut = [piece for piece in nest.pieces.values() if not piece.written.cut]
    return Section("cut", "What to cut", "".join(parts) + _not_cut(subject, uncut, placed))


def _entries(nest: Nest, material: str | None) -> Sequence[_Entry]:
    return [
        (piece, cut)
        for piece in nest.pieces.values()
        for cut in piece.written.cut or ()
        if (material in cut.materials if material is not None else not cut.materials)
    ]


def _list(
    subject: Subject, nest: Nest, ident: str | None, entries: Sequence[_Entry], placed: set[str]
) -> str:
    if not entries:
        return ""
    material = subject.pattern.materials[ident] if ident is not None else None
    called = subject.names.of(Place(material=ident)) if ident is not None else "No material stated"
    rows = [list(_row(subject, nest, piece, cut, placed)) for piece, cut in entries]
    kept = [k for k in range(len(_HEADS)) if any(row[k] for row in rows)]
    shown = table([_HEADS[k] for k in kept], ([row[k] for k in kept] for row in rows), len(kept))
    cloth = el("p", words(_cloth(subject, ident, material, entries)), kind="muted") if material else ""
    return el("h3", subject.named(called)) + cloth + shown


def _row(subject: Subject, nest: Nest, piece: GradedPiece, cut: Cut, placed: set[str]) -> Iterator[str]:
    name = subject.named(piece.name)
    yield name if piece.id in placed else el("span", name, id=cut_row(piece.id))
    placed.add(piece.id)
    yield words(by_size(cut.count, nest.sizes, count))
    yield words(joined(_how(subject, piece, cut)))
    about = (
        graded for graded in subject.about(piece.id) if speaks(graded) and graded.rule.family == "cutting"
    )
    yield " ".join(_said(subject.ident_of(graded), graded) for graded in about)


def _how(subject: Subject, piece: GradedPiece, cut: Cut) -> Iterator[str]:
    if piece.folds:
        yield "on the fold" if len(piece.folds) == 1 else "on two folds"
    if cut.mirrored:
        yield "in pairs: half of them mirrored"
    if cut.hand == "mirrored":
        yield "mirrored"
    if piece.written.grain == "bias" or (piece.written.strip and piece.written.strip.grain == "bias"):
        yield "on the bias"
    if cut.plies is not None:
        yield f"from {listed(subject.names.of(Place(material=ply)) for ply in cut.plies)}, basted together"


def _said(ident: str, graded: Graded) -> str:
    told = {_LACKING: "too few copies", _TOO_WIDE: "wider than the cloth"}.get(
        graded.rule.id, graded.rule.title
    )
    return sign(graded.severity) + " " + link(ident, words(told))


def _cloth(subject: Subject, ident: str | None, material: Material, entries: Sequence[_Entry]) -> str:
    """What is known of whether a cloth suffices: its width, never its length."""
    about = joined(
        (material.kind if material.kind != "cloth" else "", "one way only" if material.one_way else "")
    )
    opening = f"{about[:1].upper()}{about[1:]}. " if about else ""
    if material.width is None:
        return f"{opening}Its width is not stated, so whether the pieces fit on it was not checked."
    width = length(material.width, subject.names.unit)
    checked = subject.verdict.checked
    if material.kind == "interfacing" or checked is None or _TOO_WIDE not in checked.checks:
        return f"{opening}{width} wide; whether the pieces fit on it was not checked."
    too_wide = dict.fromkeys(
        piece.name
        for piece, _ in entries
        if any(graded.rule.id == _TOO_WIDE for graded in subject.about(piece.id))
    )
    if too_wide:
        return f"{opening}{width} wide, which is not enough for {listed(too_wide)}."
    return f"{opening}{width} wide: each piece fits across it."


def _not_cut(subject: Subject, pieces: Sequence[GradedPiece], placed: set[str]) -> str:
    if not pieces:
        return ""
    names = ", ".join(el("span", subject.named(piece.name), id=cut_row(piece.id)) for piece in pieces)
    placed.update(piece.id for piece in pieces)
    return el("p", words("No cut order: "), names)
