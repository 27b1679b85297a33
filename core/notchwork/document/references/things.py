"""References of openings, notions, girths, steps and acceptances."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from notchwork.document.faults import BADLY_STATED, BROKEN_REFERENCE, fault
from notchwork.document.pointers import pointer
from notchwork.document.references.known import Known
from notchwork.document.references.ranges import range_faults
from notchwork.document.references.spans import span_faults
from notchwork.findings import Finding
from notchwork.model import Stated, Step

_SECTIONS = ("seams", "openings", "notions", "pieces")


def thing_faults(known: Known) -> Iterator[Finding]:
    yield from _openings(known)
    yield from _notions(known)
    yield from _girths(known)
    yield from _order(known)
    yield from _accepted(known)
    yield from _tolerances(known)


def _openings(known: Known) -> Iterator[Finding]:
    for ident, opening in known.pattern.openings.items():
        at = pointer("openings", ident)
        for section, spans in enumerate(opening.sections or opening.lips or ()):
            for index, span in enumerate(spans):
                yield from span_faults(known, known.where.span_of_opening(ident, section, index), span)
        yield from known.refers(f"{at}/closed_by", "seams", "seam", opening.closed_by)
        yield from known.refers(f"{at}/open_until", "seams", "seam", opening.open_until)


def _notions(known: Known) -> Iterator[Finding]:
    for ident, notion in known.pattern.notions.items():
        if notion.serves is None:
            continue
        at = f"{pointer('notions', ident)}/in"
        piece, dot, line = notion.serves.partition(".")
        if not dot:
            yield from known.refers(at, "openings", "opening", piece)
        elif not known.has("pieces", piece):
            yield from known.refers(at, "pieces", "piece", piece)
        elif (names := known.names.get(piece)) is not None and line not in {*names.lines, *names.vague}:
            yield known.broken(at, f"edge or inner line of piece {piece}", line, names.lines)


def _girths(known: Known) -> Iterator[Finding]:
    for ident, girth in known.pattern.girths.items():
        at = pointer("girths", ident)
        yield from known.refers(f"{at}/seam", "seams", "seam", girth.seam)
        yield from known.refers(f"{at}/body", "body", "body measure", girth.body)
        yield from range_faults(known, f"{at}/ease", girth.ease)
        seam = known.pattern.seams.get(girth.seam)
        if seam is not None and girth.side > len(seam.sides):
            yield fault(
                BROKEN_REFERENCE,
                f"{at}/side",
                'seam "{seam}" has {sides} sides, so there is no side {side}.',
                "Sides are counted from 1.",
                seam=girth.seam,
                sides=len(seam.sides),
                side=girth.side,
            )


def _order(known: Known) -> Iterator[Finding]:
    own = {f.name for f in fields(Stated)} | {"note"}
    verbs = [f.name for f in fields(Step) if f.name not in own]
    for number, step in enumerate(known.pattern.order):
        for verb in verbs:
            for index, name in enumerate(getattr(step, verb) or ()):
                if not _is_there(known, name):
                    at = pointer("order", number, verb, index)
                    things = sorted({thing for key in _SECTIONS for thing in known.doubt.known[key]})
                    yield known.broken(at, "seam, opening, notion, piece or part of one", name, things)


def _is_there(known: Known, name: str) -> bool:
    ident, dot, part = name.partition("#")[0].partition(".")
    if not dot:
        return any(known.has(section, ident) for section in _SECTIONS)
    if not known.has("pieces", ident):
        return False
    names = known.names.get(ident)
    if names is None:
        return True
    marks = known.pieces[ident].marks
    return part in {*names.lines, *names.notches, *names.intakes, *names.vague, *marks} or any(
        part in line.nodes for line in names.lines.values()
    )


def _tolerances(known: Known) -> Iterator[Finding]:
    """What is off becomes an info first, then a warning, then an error."""
    stated = {pointer("tolerances", check): steps for check, steps in known.pattern.tolerances.items()}
    for ident, seam in known.pattern.seams.items():
        stated |= {
            pointer("seams", ident, "tolerances", check): steps for check, steps in seam.tolerances.items()
        }
    for at, steps in stated.items():
        if list(steps) != sorted(steps):
            yield fault(
                BADLY_STATED,
                at,
                "the three steps fall: {steps}.",
                "Write them from where info begins to where error begins, as in [0.5, 1, 2].",
                steps=", ".join(f"{step:g}" for step in steps),
            )


def _accepted(known: Known) -> Iterator[Finding]:
    for number, acceptance in enumerate(known.pattern.accepted):
        at = pointer("accepted", number)
        yield from known.refers(f"{at}/seam", "seams", "seam", acceptance.seam)
        yield from known.refers(f"{at}/piece", "pieces", "piece", acceptance.piece)
