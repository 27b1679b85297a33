"""What is wrong in plain words, worst first, under the seam or piece it concerns, each with a way to its drawing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from notchwork.checks import Graded, group_of
from notchwork.document import pointer_for
from notchwork.report.about_pattern import counted
from notchwork.report.page.markup import Section, el, link, sign, table, words
from notchwork.report.page.subject import Subject, card_of, corner_of
from notchwork.report.told import speaks, told

_Numbered = tuple[str, Graded]


def findings(subject: Subject) -> Section:
    """What counts against the pattern, then the small remarks and what was accepted on purpose, which open at a click."""
    loud = [entry for entry in subject.numbered() if speaks(entry[1])]
    quiet = [entry for entry in subject.numbered() if not speaks(entry[1])]
    remarks = ""
    if quiet:
        accepted = sum(graded.accepted is not None for _, graded in quiet)
        said = [counted(len(quiet) - accepted, "small remark")] if accepted < len(quiet) else []
        said += [f"{accepted} accepted on purpose"] if accepted else []
        remarks = el(
            "details", el("summary", words(", ".join(said))), _columns(_groups(subject, quiet)), kind="quiet"
        )
    faulty = subject.verdict.checked is None
    heading = "Mend first" if faulty else "What to mend" if loud else "Remarks"
    return Section("findings", heading, _columns(_groups(subject, loud)) + remarks)


def _columns(groups: Iterable[str]) -> str:
    """Side by side where there is room."""
    parts = "".join(groups)
    return el("div", parts, kind="groups") if parts else ""


def _groups(subject: Subject, entries: Sequence[_Numbered]) -> Iterator[str]:
    for group, inside in groupby(entries, key=lambda entry: group_of(entry[1])):
        told_here = list(inside)
        entries_here = (_finding(subject, ident, graded) for ident, graded in told_here)
        yield el("div", _heading(subject, group, told_here[0][1]), el("ul", *entries_here, kind="findings"))


def _heading(subject: Subject, group: tuple[str, str] | None, graded: Graded) -> str:
    if group is None:
        return ""
    kind, ident = group
    if kind == "seam":
        return el("h3", subject.seam(ident))
    return el("h3", subject.named(subject.names.of(graded.finding.place)))


def _finding(subject: Subject, ident: str, graded: Graded) -> str:
    said = told(graded, subject.names)
    heads, *rows = said.table or ((),)
    figures = table(map(words, heads), ([words(cell) for cell in row] for row in rows))
    return el(
        "li",
        sign(graded.severity),
        el(
            "div",
            el("p", el("strong", words(graded.severity.word.capitalize())), " ", words(said.text)),
            el("p", words(said.hint)) if said.hint else "",
            el("p", words(f"Accepted on purpose: {graded.accepted}")) if graded.accepted is not None else "",
            figures if rows else "",
            el("p", " ".join(_ways(subject, graded)), kind="ways"),
            _why(subject, graded),
        ),
        id=ident,
        tabindex="-1",
    )


def _ways(subject: Subject, graded: Graded) -> Iterator[str]:
    """Links to where it can be seen: its seams, and its corners where it is told of an end; else its pieces."""
    seams = dict.fromkeys(place.seam for place in graded.places if place.seam in subject.album.seams)
    corners = subject.corners_of(graded)
    if not (corners and graded.rule.id == _AT_CORNERS):
        for seam in seams:
            yield link(card_of(seam or ""), "See ", subject.seam(seam or ""))
    for corner in corners:
        yield link(corner_of(corner.picture), "See the corner")
    if not seams and subject.album.glance and (pieces := subject.pieces_of(graded)):
        names = ", ".join(subject.named(subject.names.piece(piece)) for piece in pieces)
        yield link("glance", "See ", names)


_AT_CORNERS = "seams/does-not-run-on"
"""What is seen at the end of a seam, and not along it."""


def _why(subject: Subject, graded: Graded) -> str:
    """The reason and the source, one click away."""
    rule = graded.rule
    pointer = pointer_for(subject.pattern, graded.finding.place)
    at = subject.line(pointer) if pointer else None
    line = f", line {at} of the document" if at is not None else ""
    return el(
        "details",
        el("summary", "Why, and by what rule"),
        el("p", words(rule.rationale)),
        el("p", words(f"Source: {rule.source}")),
        el("p", el("code", words(rule.id)), words(line), kind="muted"),
        kind="why",
    )
