"""The whole page, put together from its parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from notchwork.checks import Verdict
from notchwork.pictures import PATTERNS
from notchwork.report.page.album import Album
from notchwork.report.page.cautions import cautions
from notchwork.report.page.corners import corners
from notchwork.report.page.cutting import cutting
from notchwork.report.page.differences import differences
from notchwork.report.page.findings import findings
from notchwork.report.page.glance import glance, nested
from notchwork.report.page.markup import Section, el, words
from notchwork.report.page.notions import notions
from notchwork.report.page.opening import opening, title
from notchwork.report.page.order import order
from notchwork.report.page.script import DIGEST, SCRIPT
from notchwork.report.page.seams import seams
from notchwork.report.page.style import STYLE
from notchwork.report.page.subject import Line, Subject

GENERATOR = "Notchwork report"
"""How a page says what it is."""

_POLICY = f"default-src 'none'; style-src 'unsafe-inline'; script-src '{DIGEST}'; base-uri 'none'; form-action 'none'"
"""The page may reach nothing, and no script runs but its own."""


def page(file: str, verdict: Verdict, line: Line, album: Album) -> str:
    """One HTML document that stands by itself. Its own words are English; the maker's words carry the pattern's language."""
    subject = Subject(file, verdict, line, album)
    sections = [section for section in _sections(subject) if section.body]
    return "".join(
        (
            '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n',
            f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n',
            '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
            '<meta name="color-scheme" content="light dark">\n<meta name="referrer" content="no-referrer">\n',
            f'<meta name="generator" content="{GENERATOR}">\n',
            f"<title>{words(title(subject))}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n",
            '<a class="skip" href="#main">To the findings and pictures</a>\n',
            f'<svg class="patterns" width="0" height="0" aria-hidden="true"><defs>{PATTERNS}</defs></svg>\n',
            opening(subject, sections),
            '\n<main id="main" tabindex="-1">\n',
            *_laid_out(sections),
            f"</main>\n{el('footer', cautions())}\n<script>{SCRIPT}</script>\n</body>\n</html>\n",
        )
    )


def _sections(subject: Subject) -> Iterator[Section]:
    yield findings(subject)
    if subject.verdict.nest is None:
        return
    yield seams(subject)
    yield corners(subject)
    yield differences(subject, subject.verdict.nest)
    yield glance(subject)
    yield cutting(subject, subject.verdict.nest)
    yield notions(subject, subject.verdict.nest)
    yield order(subject)
    yield nested(subject)


_BESIDE = ("cut", "notions", "order")
"""What stands beside the pattern at a glance where there is room."""


def _laid_out(sections: Iterable[Section]) -> Iterator[str]:
    for beside, group in groupby(sections, key=lambda section: section.ident in ("glance", *_BESIDE)):
        shown = {section.ident: _shown(section) for section in group}
        if not beside or "glance" not in shown:
            yield from shown.values()
            continue
        yield el("div", shown.pop("glance"), el("div", *shown.values()), kind="beside")


def _shown(section: Section) -> str:
    ident = f"{section.ident}-h"
    heading = el("h2", words(section.title), id=ident)
    return el("section", heading, section.body, "\n", id=section.ident, aria_labelledby=ident, tabindex="-1")
