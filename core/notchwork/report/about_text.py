"""What the program knows, for the terminal: a rule explained, and the lists of checks and formats."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from notchwork.checks import Check
from notchwork.findings import Rule, Severity, Tolerance, measure_of, worded
from notchwork.formats import Format
from notchwork.report.paper import Paper, columns, table

_NEVER = 9999

_WORDS = {Severity.INFO: "info", Severity.WARNING: "a warning", Severity.ERROR: "an error"}

_OF_SEAMS = ("seams", "sleeves", "cutting/edge-sewn-twice", "hems/unlike-at-a-seam")
_OF_THE_PATTERN = ("seams/none-stated", "openings/layers-differ", "openings/zip-does-not-fit")
"""What is found on a seam, and what on neither a seam nor a piece, by id or family; all else is found on a piece."""


def rule_text(rule: Rule, is_check: bool, paper: Paper) -> str:
    """A rule's own words: why, where from, how loudly, and how to have it otherwise."""
    lines = [paper.heading(rule.id), *paper.wrapped(rule.title + "."), "", *paper.wrapped(rule.rationale), ""]
    for line in _speaks(rule):
        lines += paper.wrapped(line)
    if rule.quiet:
        lines += ["", *paper.wrapped(f"It stays quiet: {rule.quiet}")]
    lines += ["", *paper.wrapped(f"Source: {rule.source}")]
    if is_check:
        lines += ["", *_otherwise(rule, paper)]
    return "\n".join(lines) + "\n"


def rules_text(rules: Iterable[Rule], paper: Paper) -> str:
    """Rules with their titles, by id."""
    return "".join(f"{line}\n" for line in paper.terms([(rule.id, rule.title) for rule in rules]))


def checks_text(checks: Iterable[Check], paper: Paper) -> str:
    """Every check with its title, family by family."""
    return rules_text((check.rule for check in checks), paper) or "No checks are installed.\n"


def format_text(known: Format, paper: Paper) -> str:
    """A format, and the options of its own with what they are when nothing is said."""
    lines = [paper.heading(known.name), *paper.wrapped(f"{known.title} ({', '.join(known.suffixes)})."), ""]
    if not known.options:
        return "\n".join([*lines, *paper.wrapped("It has no options of its own.")]) + "\n"
    lines += paper.wrapped("Options, each given as -O NAME=VALUE:")
    terms = [
        (
            option.name,
            option.help + (f" ({option.default} unless stated)" if option.default is not None else ""),
        )
        for option in known.options
    ]
    return "\n".join([*lines, *paper.terms(terms, 2)]) + "\n"


def formats_text(formats: Iterable[Format], paper: Paper) -> str:
    """Every format with its suffixes and what can be done with it; a paragraph each where there is no room for columns."""
    rows = [["name", "suffixes", "can be", "what it is"]]
    for known in formats:
        does = " and ".join(
            word for word, able in (("read", known.read is not None), ("written", known.writes)) if able
        )
        rows.append([known.name, " ".join(known.suffixes), does, known.title])
    lines = table(rows, left=4)
    if any(columns(line) > paper.width for line in lines):
        terms = [(name, f"{title}; {suffixes}; can be {does}") for name, suffixes, does, title in rows[1:]]
        lines = paper.terms(terms)
    return "\n".join(lines) + "\n"


def _speaks(rule: Rule) -> Iterator[str]:
    if isinstance(rule.grade, Severity):
        yield f"It is always told as {_WORDS[rule.grade]}."
        return
    steps = _steps(rule.grade)
    if [step for _, step in steps] == [0]:
        yield f"It is always told as {steps[0][0]}."
    else:
        yield f"What is off is told {_beyond(rule.grade)}."
    if rule.tape is not None:
        yield f"Where a length was taken with a tape: {_beyond(rule.tape)}."


def _beyond(tolerance: Tolerance) -> str:
    return ", ".join(
        worded(f"as {word} beyond {{step}}", {"step": measure_of(step, tolerance.unit)})
        for word, step in _steps(tolerance)
    )


def _steps(tolerance: Tolerance) -> list[tuple[str, float]]:
    """The steps that are not left out, in words and figures."""
    steps = zip(_WORDS.values(), (tolerance.info, tolerance.warning, tolerance.error), strict=True)
    return [(word, step) for word, step in steps if step is not None]


def _otherwise(rule: Rule, paper: Paper) -> Iterator[str]:
    kind = accepted_on(rule)
    if isinstance(rule.grade, Tolerance):
        where = "in the pattern or on one seam" if kind == "seam" else "in the pattern"
        yield from paper.wrapped(f"To have other limits, state info, warning and error {where}:")
        yield f'  "tolerances": {{"{rule.id}": {_stated(rule.grade)}}}'
        if rule.grade.error is None:
            yield from paper.wrapped(f"({_NEVER} stands for never.)")
    yield from paper.wrapped("To accept a finding on purpose:")
    on = f'"{kind}": "…", ' if kind is not None else ""
    yield f'  "accepted": [{{"check": "{rule.id}", {on}"reason": "…"}}]'


def accepted_on(rule: Rule) -> Literal["seam", "piece"] | None:
    """What an acceptance of the rule's findings names, besides the rule; None where there is neither seam nor piece."""
    if rule.id in _OF_THE_PATTERN:
        return None
    return "seam" if rule.family in _OF_SEAMS or rule.id in _OF_SEAMS else "piece"


def _stated(tolerance: Tolerance) -> str:
    """The steps as a pattern states them, which always are three; one that is left out is never reached."""
    steps = (tolerance.info, tolerance.warning, tolerance.error)
    stated = [next((step for step in steps[index:] if step is not None), _NEVER) for index in range(3)]
    return f"[{', '.join(f'{step:g}' for step in stated)}]"
