"""What becomes of an edge that no seam takes, where words beside it say so: "hem 2 cm", "waist casing", "raw"."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from notchwork.model import Finish
from notchwork.recognise.words.grammar import LENGTH, edge_name_of, length_in, without_edge_words

Kind = Literal["hem", "bound", "faced", "casing", "overcast", "rolled", "raw"]

_WORDS: dict[Kind, str] = {
    "bound": r"bound|binding|eingefasst|bordé|ribeteado",
    "faced": r"faced|belegt|parementé",
    "rolled": r"rolled|rollsaum|roulotté|rolzoom",
    "overcast": r"overcast|overlocked|serged|versäubert|surfilé",
    "raw": r"raw|offenkantig|bord\s+vif",
    "casing": r"casing|tunnelzug|tunnel|coulisse",
    "hem": r"hem(?:line|med)?|saum|gesäumt|ourlet|ourlé|zoom|gezoomd|dobladillo",
}
_KINDS = {kind: re.compile(rf"\b(?:{words})\b", re.IGNORECASE) for kind, words in _WORDS.items()}
"""A hem comes last: "rolled hem" is rolled."""
_BESIDE_IT = re.compile(
    r"\b(?:edges?|kante|finish(?:ed)?|deep|wide|turned|folded|up|double|single|twice|once|narrow|left)\b",
    re.IGNORECASE,
)


class Said(NamedTuple):
    """What words say of an edge: its finish, and what they call it, if anything."""

    finish: Finish
    name: str | None


def finish_of(words: str) -> Said | None:
    """The finish that a short text states; None where it says anything else besides ("hem band" is a piece, not a finish).

    A length is how deep the finished edge is turned (mm), or how wide the binding or facing is.
    """
    plain = _plain(LENGTH.sub(" ", words))
    kind = next((kind for kind, said in _KINDS.items() if said.search(plain)), None)
    if kind is None or re.search(r"\bseam\b", plain, re.IGNORECASE):
        return None
    called = plain
    for other, said in _KINDS.items():
        if other != "hem":
            called = said.sub(" ", called)
    called = _plain(_BESIDE_IT.sub(" ", called))
    if any(c.isalnum() for c in without_edge_words(called)):
        return None
    stated = length_in(words)
    length = None if stated is None else round(stated, 4)
    if kind in ("bound", "faced"):
        finish = Finish(kind, width=length)
    else:
        finish = Finish(kind, depth=length if kind in ("hem", "casing", "rolled") else None)
    return Said(finish, edge_name_of(called) if called else None)


def _plain(words: str) -> str:
    return " ".join(words.split()).strip(" .:,;-–()")
