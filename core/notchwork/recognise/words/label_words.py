"""Match labels and what stands beside them: sides and joins."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from notchwork.recognise.words.grammar import NUMBER, length_in, number_of
from notchwork.recognise.words.size_names import SIZE_NAMES

JoinKind = Literal["eased", "gathered", "stretched", "pleated"]

_LABEL = re.compile(
    r"(?P<label>[A-Z]{1,3}|[a-z]|[A-Z]{1,2}\d{1,2}|\d{1,3}|\d{1,2}(?![xX])[A-Za-z])"
    r"(?:[\s,;:]+side\s*(?P<side>[12]))?(?:[\s,;:(]+(?P<rest>\D.*?)\)?)?\s*"
)
_JOIN = re.compile(
    rf"(?P<eased>eased?|einhalten|mehrweite|soutenir|embu|inhouden)|(?P<gathered>gather(?:ed|s)?|kräuseln|einreihen|fronce[rs]?|rimpelen)"
    rf"|(?P<stretched>stretch(?:ed)?|dehnen|étirer)|(?P<pleated>pleated|gefaltet)|{NUMBER}",
    re.IGNORECASE,
)
NO_LABELS = frozenset(
    [
        "CF",
        "CB",
        "L",
        "R",
        "LH",
        "RH",
        "VM",
        "HM",
        "MV",
        "MA",
        "MD",
        "RS",
        "WS",
        "SA",
        "NZ",
        "TOP",
        "HEM",
        "CUT",
        "ZIP",
        "LEG",
        "ARM",
        "CM",
        "MM",
        "IN",
        "ON",
        "OF",
        "TO",
        "UP",
        "NO",
        "PLI",
        "FIL",
        "BUS",
        "SF",
        "SB",
        "WB",
        "SS",
    ]
)


@dataclass(frozen=True, slots=True)
class Stated:
    """How a label says its edges are joined: ease in mm, or a ratio for gathers and stretch; None where no figure is given."""

    kind: JoinKind
    figure: float | None = None


@dataclass(frozen=True, slots=True)
class Label:
    """A match label: its letters or figures, the side it says it is on, and the join it states."""

    name: str
    side: int | None = None
    join: Stated | None = None


def label_of(words: str) -> Label | None:
    """The match label that a text is; None of words, CF, CB, L, R and the like, nor of names of sizes."""
    found = _LABEL.fullmatch(words.strip())
    if found is None or found["label"].upper() in NO_LABELS | SIZE_NAMES:
        return None
    rest = found["rest"]
    join = join_of(rest) if rest is not None else None
    if rest is not None and join is None:
        return None
    return Label(found["label"], int(found["side"]) if found["side"] else None, join)


def join_of(words: str) -> Stated | None:
    """ "ease 25 mm" or "gather 2" as a join; None of any other text."""
    said = words.strip(" .()")
    if len(said.split()) > 4:
        return None
    kinds = [m.lastgroup for m in _JOIN.finditer(said) if m.lastgroup]
    if not kinds:
        return None
    kind: JoinKind = next(k for k in ("eased", "gathered", "stretched", "pleated") if k == kinds[0])
    number = re.search(NUMBER, said)
    if kind == "eased":
        length = length_in(said)
        return Stated(kind, length if length is not None else number_of(number[0]) if number else None)
    return Stated(kind, number_of(number[0]) if number is not None and kind != "pleated" else None)
