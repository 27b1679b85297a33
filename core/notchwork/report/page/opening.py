"""What the page opens with: the verdict, what was looked at, what was not, and where to find the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.findings import Severity, listed
from notchwork.report.about_pattern import counted
from notchwork.report.page.markup import Section, el, link, listing, sign, words
from notchwork.report.page.subject import Subject
from notchwork.report.verdict_text import not_run, verdict_sentence

_BEYOND = (
    "Not checked: how it fits the body that wears it, how much cloth it takes, and the order of sewing. "
    "Nothing of that is worked out."
)


def opening(subject: Subject, sections: Iterable[Section]) -> str:
    """The head of the page."""
    sentence, rest = _parted(verdict_sentence(subject.verdict))
    return el(
        "header",
        el("h1", subject.named(title(subject))),
        el("p", *_about(subject), kind="muted"),
        el("p", _sign(subject), el("strong", words(sentence)), words(rest), kind="verdict"),
        *(el("p", words(line), kind="muted") for line in _not_checked(subject)),
        el(
            "nav",
            listing(link(section.ident, words(section.title)) for section in sections),
            aria_label="On this page",
        ),
    )


def title(subject: Subject) -> str:
    """The pattern's own title, else the name of its file."""
    return subject.pattern.title or subject.file


def _about(subject: Subject) -> Iterator[str]:
    pattern = subject.pattern
    if pattern.title:
        yield f"<bdi>{words(subject.file)}</bdi>"
    if subject.verdict.checked is None:
        return
    said = [counted(len(pattern.pieces), "piece")]
    if pattern.sizes is not None:
        said.append(f"in {listed(pattern.sizes.names)}, drafted in {pattern.sizes.base}")
    unit = {"mm": "mm", "cm": "cm", "in": "inches"}[pattern.unit]
    yield words(f"{': ' if pattern.title else ''}{' '.join(said)}; lengths in {unit}.")


def _sign(subject: Subject) -> str:
    checked = subject.verdict.checked
    if checked is None:
        return sign(Severity.ERROR)
    worst = max((graded.severity for graded in subject.verdict.at_least(Severity.WARNING)), default=None)
    unsure = not subject.verdict.complete or not checked.seams
    return sign(Severity.INFO if worst is None and unsure else worst)


def _not_checked(subject: Subject) -> Iterator[str]:
    if subject.verdict.checked is None:
        yield "Mend what is told below first: until then no piece can be measured, and nothing can be drawn."
        return
    yield from not_run(subject.verdict, subject.names)
    yield _BEYOND


def _parted(sentence: str) -> tuple[str, str]:
    """The verdict itself, and what comes after its colon."""
    said, colon, rest = sentence.partition(":")
    return said + colon, rest
