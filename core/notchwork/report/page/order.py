"""The order of sewing, as its maker stated it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from notchwork.findings import Place
from notchwork.model import Step
from notchwork.report.page.markup import Section, el, link, listing, words
from notchwork.report.page.subject import Subject, cut_row

_VERBS: Mapping[str, str] = {
    "baste": "Baste",
    "dart": "Sew the darts of",
    "sew": "Sew",
    "gather": "Gather for",
    "finish": "Finish",
    "insert": "Insert",
    "fit": "Try on, and look at",
    "turn": "Turn",
    "hang": "Let hang",
}


def order(subject: Subject) -> Section:
    """Its steps one by one, each thing leading to where it is shown."""
    steps = ("".join(_step(subject, step)) for step in subject.pattern.order)
    return Section("order", "The order of sewing", listing(steps, "order", "ol"))


def _step(subject: Subject, step: Step) -> Iterator[str]:
    for verb, said in _VERBS.items():
        things: tuple[str, ...] | None = getattr(step, verb)
        if things:
            yield f"{words(said)} {', '.join(_thing(subject, thing) for thing in things)}. "
    if step.note:
        yield el("span", words(step.note), kind="muted", lang=subject.lang)


def _thing(subject: Subject, ident: str) -> str:
    """A seam, piece, notion or opening by the name its maker gave it."""
    pattern, names = subject.pattern, subject.names
    if ident in pattern.seams:
        return subject.seam_link(ident)
    if ident in pattern.pieces:
        return link(cut_row(ident), subject.named(names.piece(ident)))
    if ident in pattern.notions:
        return subject.notion(ident)
    return subject.named(names.of(Place(opening=ident)) or ident)
