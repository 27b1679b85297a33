"""What is to be said of a file beyond what is on its pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.findings import Finding, Length, Phrase, Place
from notchwork.pages import Sheets
from notchwork_plugins.pdf.document import MOST_POINTS, user_unit
from notchwork_plugins.pdf.fonts import Faces
from notchwork_plugins.pdf.numbers import POINT
from notchwork_plugins.pdf.rules import LONG_PAGE, MISSING_LETTERS, UNSHAPED

_FEW = 5
"""As many words are told before the rest is only counted."""
_MOST_LETTERS = 40


def said(sheets: Sheets, faces: Faces) -> Iterator[Finding]:
    """One finding for each kind of thing."""
    if faces.missing:
        letters = "".join(dict.fromkeys("".join(faces.missing.values())))
        yield Finding(
            MISSING_LETTERS,
            Place(),
            "The font lacks letters ({letters}) of {words}; a sign with a question mark is printed instead.",
            "Give a font that has them: -O font=FILE, a TTF or OTF file.",
            {"letters": _short(letters), "words": _few(faces.missing)},
        )
    if faces.unshaped:
        yield Finding(
            UNSHAPED,
            Place(),
            "Letters of {words} are printed one by one from the left, neither joined nor turned round.",
            "Write such names by hand, or add them to the pattern in a script that is written letter by letter.",
            {"words": _few(faces.unshaped)},
        )
    longest = max((sheet for sheet in sheets.sheets), key=user_unit, default=None)
    if longest is not None and user_unit(longest) > 1.0:
        yield Finding(
            LONG_PAGE,
            Place(),
            "A page is {long} long, more than the {most} that every program prints at its size.",
            "Measure the test square before anything is cut, or choose shorter paper.",
            {
                "long": Length(max(longest.size.real, longest.size.imag)),
                "most": Length(MOST_POINTS / POINT),
            },
        )


def _few(words: Iterable[str]) -> tuple[str | Phrase, ...]:
    every = list(words)
    told: list[str | Phrase] = [f"“{_short(word)}”" for word in every[:_FEW]]
    if len(every) > _FEW:
        told.append(Phrase(f"{len(every) - _FEW} more", {}))
    return tuple(told)


def _short(text: str) -> str:
    return text if len(text) <= _MOST_LETTERS else text[: _MOST_LETTERS - 1] + "…"
