"""References of one span: its line, and where it starts and stops."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.document.faults import AMBIGUOUS, BADLY_STATED, fault
from notchwork.document.references.known import Known
from notchwork.document.references.names import Line
from notchwork.findings import Finding, listed
from notchwork.model import Span


def line_of(known: Known, span: Span) -> Line | None:
    """The line that a span walks; None where it is not there or cannot be judged."""
    names = known.names.get(span.piece)
    return names.lines.get(span.line) if names is not None and span.line not in names.vague else None


def span_faults(known: Known, at: str, span: Span) -> Iterator[Finding]:
    """Every fault of a span that can be told without measuring."""
    if not known.has("pieces", span.piece):
        yield from known.refers(at, "pieces", "piece", span.piece)
        return
    names = known.names.get(span.piece)
    if names is None or span.line in names.vague:
        return
    line = names.lines.get(span.line)
    if line is None:
        kind = f"edge, inner line or cut-out of piece {span.piece}"
        yield known.broken(at, kind, span.line, names.lines)
        return
    misplaced = [
        *known.place(f"{at}/from", line, span.start),
        *known.place(f"{at}/to", line, span.stop),
    ]
    yield from misplaced
    if line.closed:
        yield from _round(at, line, span)
    elif not misplaced:
        yield from _along(known, at, line, span)


def _round(at: str, line: Line, span: Span) -> Iterator[Finding]:
    if span.way is None and (span.start is not None or span.stop is not None):
        yield fault(
            AMBIGUOUS,
            at,
            '"{line}" is closed, so it may be walked either way round.',
            'Add "way": "forward" (in the order of its nodes) or "back".',
            line=line.name,
        )


def _along(known: Known, at: str, line: Line, span: Span) -> Iterator[Finding]:
    names = known.names[line.piece]
    if span.way is not None:
        yield fault(
            BADLY_STATED,
            f"{at}/way",
            '"way" is for closed lines; "{line}" has two ends.',
            'Say where the span starts with "from" instead.',
            line=line.name,
        )
    if span.stop is not None and span.start is None:
        yield fault(
            BADLY_STATED,
            at,
            '"to" says where the span stops, but not where it starts.',
            'Add "from".',
        )
    if span.start is None or span.start.name in names.vague:
        return
    starts_at = line.end_at(span.start)
    if span.stop is None and starts_at is None:
        yield fault(
            AMBIGUOUS,
            at,
            'the span starts inside "{line}", so it may run to either end of it.',
            'Add "to": {ends}.',
            line=line.name,
            ends=listed((f'"{name}"' for name in _ends(line)), "or") or "the name of an end",
        )
    if span.stop is not None and (
        span.stop == span.start or (starts_at and starts_at == line.end_at(span.stop))
    ):
        yield fault(
            BADLY_STATED,
            at,
            "the span starts and stops at the same place.",
            "Name another place where it stops.",
        )


def _ends(line: Line) -> list[str]:
    """One name for either end of a line."""
    starts, stops = (
        sorted(line.starts, key=lambda n: n != line.before),
        sorted(line.stops, key=lambda n: n != line.after),
    )
    return [*starts[:1], *stops[:1]]
