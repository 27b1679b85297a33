"""A drawing becomes a pattern: what is recognised in it, put into the document that it carries."""

from __future__ import annotations

from dataclasses import replace

from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Drawing
from notchwork.findings import Finding, NotchworkError, Place, Severity
from notchwork.model import Pattern
from notchwork.recognise import Options, TooMuchDrawn, fineness, recognise, reconcile
from notchwork.recognise.reconcile.fineness import LEAST
from notchwork.recognise.words.rules import DOCUMENT_GONE, DOCUMENT_UNREADABLE
from notchwork.sewing import Nest


def pattern_of(drawing: Drawing, name: str, reading: Options | None) -> tuple[Pattern, tuple[Finding, ...]]:
    """The pattern of a drawing that is called ``name`` in messages, and what is to be said of it.

    Where the drawing carries a document and nothing was moved since, the document's pattern itself. Raises NotchworkError
    where it holds more than any pattern.
    """
    try:
        recognised = recognise(drawing, reading)
    except TooMuchDrawn as error:
        raise NotchworkError(name, error.why, error.repair) from error
    if drawing.attached is None:
        return recognised.pattern, recognised.findings
    document, unreadable = _document(drawing.attached, name)
    if document is None:
        alone = recognise(replace(drawing, attached=None), reading)
        told = tuple(finding for finding in alone.findings if finding.rule is not DOCUMENT_GONE)
        return alone.pattern, (*unreadable, *told)
    pattern, told = reconcile(recognised.pattern, document, max(drawing.fine, LEAST))
    if told and not drawing.fine:
        # What seems moved may only have been rounded by a program that saved the drawing again.
        fine = fineness(drawing, draw_pattern(Nest(document)))
        pattern, told = reconcile(recognised.pattern, document, fine)
    anew = {finding.place.piece for finding in told}
    kept = [
        finding
        for finding in recognised.findings
        if finding.rule.grade is not Severity.INFO or (anew and finding.place.piece in anew - {None})
    ]
    return pattern, (*told, *kept)


def _document(data: bytes, name: str) -> tuple[Pattern | None, tuple[Finding, ...]]:
    """The document's pattern; or why there is none."""
    try:
        read = read_pattern(data, name)
    except NotchworkError as error:
        return None, (_unreadable(str(error)),)
    if read.pattern is not None:
        return read.pattern, ()
    faults = sum(fault.rule.grade is Severity.ERROR for fault in read.faults)
    return None, (_unreadable("it has a fault" if faults == 1 else f"it has {faults} faults"),)


def _unreadable(why: str) -> Finding:
    return Finding(
        DOCUMENT_UNREADABLE,
        Place(),
        "The document that the drawing carries cannot be read ({why}), so the drawing alone is.",
        "State its seams and notions anew, or go back to a copy that was not damaged.",
        {"why": why},
    )
