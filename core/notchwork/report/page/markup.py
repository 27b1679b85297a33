"""Pieces of a page. Whatever comes from a file goes through ``words`` or an attribute here, and is never markup."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.drawing.xml import quoted
from notchwork.drawing.xml import words as _words
from notchwork.findings import Severity, safe
from notchwork.pictures.lettering import clipped, isolated, short
from notchwork.values import frozen

LETTERS = 80
"""A name in a heading or table is cut off with an ellipsis from here on; sentences hold it whole."""
FIGURES = 60
"""Letters: as long a list of figures in a few sizes may be; with more, names in it are longer than a narrow screen is wide."""

SIGNS = {
    None: ("sews", '<circle cx="12" cy="12" r="9.2"/><path d="M7.6 12.3l3.2 3.3 5.6-7"/>'),
    Severity.WARNING: ("look", '<path d="M12 2.8 22 20.6H2z"/><path d="M12 9v5.4M12 16.6v1.8"/>'),
    Severity.ERROR: (
        "off",
        '<path class="full" d="M2.5 2.5h19v19h-19z"/><path class="on" d="m7.6 7.6 8.8 8.8m0-8.8-8.8 8.8"/>',
    ),
    Severity.INFO: ("info", '<circle cx="12" cy="12" r="9.2"/><path d="M12 10.8v6.4M12 6.6v1.8"/>'),
}
"""What is drawn before words: a ring with a tick, a triangle with !, a filled square with ×, a ring with i."""


@frozen
class Section:
    """A part of the page: where links lead, what it is called, and what it holds; nothing is shown of an empty one."""

    ident: str
    title: str
    body: str


def words(text: str) -> str:
    """Text that stays text, whatever is in it and however long it is."""
    return _words(isolated(clipped(safe(text))))


def name(text: str, lang: str = "") -> str:
    """A name as its maker wrote it: cut off where it is very long, and with its own direction of writing."""
    return f"<bdi{_lang(lang)}>{words(short(text, LETTERS))}</bdi>"


def figures(text: str) -> str:
    """Figures with their units, which no line breaks inside; a list with long names of sizes in it may break anywhere."""
    return el("span", words(text), kind="figures") if len(text) <= FIGURES else words(text)


def el(tag: str, *parts: str, **attributes: str) -> str:
    """An element. ``kind`` is its class; attributes that are empty are left out."""
    stated = "".join(
        f" {'class' if key == 'kind' else key.replace('_', '-')}={quoted(safe(value))}"
        for key, value in attributes.items()
        if value
    )
    return f"<{tag}{stated}>{''.join(parts)}</{tag}>"


def link(to: str, *parts: str, **attributes: str) -> str:
    """A link to another place of the page."""
    return el("a", *parts, href=f"#{to}", **attributes)


def listing(parts: Iterable[str], kind: str = "", tag: str = "ul") -> str:
    """A list, nothing without entries."""
    entries = "".join(f"<li>{part}</li>" for part in parts)
    return el(tag, entries, kind=kind) if entries else ""


def table(heads: Iterable[str], rows: Iterable[Iterable[str]], left: int = 1) -> str:
    """A table of markup with a heading row; first cells head their rows.

    ``left``: so many columns are words and stand flush left, the others figures.
    """
    head = "".join(f'<th scope="col"{_side(k, left)}>{cell}</th>' for k, cell in enumerate(heads))
    body = "".join(
        "<tr>"
        + "".join(
            f'<th scope="row">{cell}</th>' if k == 0 else f"<td{_side(k, left)}>{cell}</td>"
            for k, cell in enumerate(row)
        )
        + "</tr>"
        for row in rows
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def wide(table: str, label: str) -> str:
    """A table that scrolls by itself where the screen is narrower; ``label`` is its own on the page."""
    return el("div", table, kind="wide", tabindex="0", role="region", aria_label=short(label, LETTERS))


def sign(severity: Severity | None) -> str:
    """The sign alone; the words beside it say the same."""
    kind, drawn = SIGNS[severity]
    return f'<svg class="sign {kind}" width="20" height="20" viewBox="0 0 24 24" aria-hidden="true">{drawn}</svg>'


def _side(column: int, left: int) -> str:
    return "" if column < left else ' class="n"'


def _lang(lang: str) -> str:
    return f" lang={quoted(lang)}" if lang else ""
