"""The pattern at a glance, one size at a time; and all sizes laid one on another."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.findings import Severity
from notchwork.pictures import inline
from notchwork.report.page.cards import SAYS, cards
from notchwork.report.page.markup import Section, el, words
from notchwork.report.page.subject import Subject

_HOW = (
    "The same letter is sewn together; a filled letter does not fit. Letters and edges lead to their seams, "
    "signs to what is to be mended."
)


def glance(subject: Subject) -> Section:
    """A picture for every size, of which one is shown; the choice needs no script."""
    pictures = subject.album.glance
    if len(pictures) < 2:
        body = "".join(_panel(inline(picture)) for picture in pictures.values())
    else:
        body = el("fieldset", el("legend", "Size"), *_choices(subject, _first_shown(subject)), kind="chooser")
    return Section(
        "glance", "The pattern at a glance", el("p", words(_HOW), kind="how") + body if body else ""
    )


def nested(subject: Subject) -> Section:
    """A picture for every piece."""
    shown = cards(el("div", inline(picture), kind="card") for picture in subject.album.nests)
    return Section("sizes", "All sizes, laid one on another", shown)


def _choices(subject: Subject, first: str | None) -> Iterator[str]:
    """Each radio button stands before its label and its panel, which a style sheet shows while it is chosen."""
    for number, (size, picture) in enumerate(subject.album.glance.items()):
        checked = " checked" if size == first else ""
        yield f'<input type="radio" name="size" id="size-{number}"{checked}>'
        yield el("label", subject.named(str(size)), **{"for": f"size-{number}"})
        yield _panel(inline(picture))


def _panel(shown: str) -> str:
    return el("div", shown, SAYS, kind="card panel")


def _first_shown(subject: Subject) -> str | None:
    """The size in which the worst is off; where nothing is, the one that is drafted."""
    worst = next(
        (graded.worst for graded in subject.verdict.at_least(Severity.WARNING) if graded.worst is not None),
        None,
    )
    if worst is not None and worst.row.size in subject.album.glance:
        return worst.row.size
    sizes = subject.pattern.sizes
    return sizes.base if sizes is not None else None
