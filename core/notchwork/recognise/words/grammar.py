"""What short texts on a pattern say, in several languages: lengths, allowances, folds, grain, names of edges."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

NUMBER = r"(\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)"
_UNIT = r"(mm|cm|inches|inch|in\b|\"|″|'')"
LENGTH = re.compile(rf"{NUMBER}\s*{_UNIT}", re.IGNORECASE)
_MM = {"mm": 1.0, "cm": 10.0}


def number_of(text: str) -> float:
    """ "1 5/8", "5/8", "1,5" or "1.5" as a number."""
    return float(sum(Fraction(part.replace(",", ".")) for part in text.split()))


def length_in(words: str) -> float | None:
    """The first length with its unit that words state, in mm."""
    found = LENGTH.search(words)
    if found is None:
        return None
    return number_of(found[1]) * _MM.get(found[2].lower(), 25.4)


_ALLOWANCE = re.compile(
    r"\ballowances?\b|\bSA\b|nahtzugabe|saumzugabe|\bNZG?\b|marge|valeur[s]?\s+de\s+couture|naadtoeslag|margen",
    re.IGNORECASE,
)
_NONE = re.compile(r"\b(?:no|without|not?\s+included?|ohne|sans|zonder|sin)\b", re.IGNORECASE)
_FOLD = re.compile(
    r"(?:place\s+|cut\s+)?(?:this\s+edge\s+)?(?:(?:on|at|to)\s+)?(?:the\s+)?(?:lengthwise\s+)?(?:fabric\s+)?fold(?:\s*line)?(?:\s+edge)?"
    r"|(?:cut\s+\d+\s+)?(?:place\s+)?on\s+(?:the\s+)?fold|cf\s+fold|cb\s+fold|cent(?:er|re)\s+(?:front|back)\s*,?\s*fold"
    r"|(?:im\s+|in\s+den\s+)?(?:stoff)?bruch(?:kante)?|(?:placer\s+)?(?:(?:au|sur\s+(?:le|la))\s+)?(?:pli|pliure)(?:\s+du\s+tissu)?"
    r"|(?:stof)?vouw|aan\s+de\s+vouw|doblez|piegatura",
    re.IGNORECASE,
)
_GRAIN = re.compile(
    r"\bgrain\s*line\b|\b(?:straight\s+)?(?:of\s+)?grain\b|fadenlauf|droit[\s-]fil|draadrichting|\bhilo\b|drittofilo|lengthwise\s+thread",
    re.IGNORECASE,
)
_BIAS = re.compile(r"\bbias\b|schräg|\bbiais\b|\bbies\b|\bsbieco\b", re.IGNORECASE)
_CROSS = re.compile(r"\bcross(?:wise)?\s*grain\b|querfaden", re.IGNORECASE)
_PLEAT = re.compile(r"\bpleats?\b|\btucks?\b|\bfalte\b|\bpli\s+(?:creux|plat)\b|\bplooi\b", re.IGNORECASE)
_CASING = re.compile(
    r"\bcasing\b|\bchannel\b|tunnelzug|\btunnel\b|\bcoulisse\b|drawstring|elastic\s+line", re.IGNORECASE
)
_CUT_OUT = re.compile(r"\bcut\s*-?out\b|\bhole\b|ausschneiden|aussparung|\bopening\b", re.IGNORECASE)
_DART = re.compile(r"\bdarts?\b|abnäher|\bpinces?\b|figuurnaad|\bpinza\b", re.IGNORECASE)


def allowance_of(words: str) -> float | None:
    """The width (mm) that a text states of the allowance; 0 where it says that there is none."""
    if _ALLOWANCE.search(words) is None:
        return None
    width = length_in(words)
    return width if width is not None else 0.0 if _NONE.search(words) else None


def speaks_of_allowance(words: str) -> bool:
    return _ALLOWANCE.search(words) is not None


def says_fold(words: str) -> bool:
    """Whether a text says of the edge it stands beside that it lies on the fold, and nothing else."""
    return _FOLD.fullmatch(words.strip(" .!,:;-–()")) is not None


def says_grain(words: str) -> bool:
    return _GRAIN.search(words) is not None


def grain_kind(words: str) -> Literal["lengthwise", "cross", "bias"] | None:
    """What is wanted of the thread, where a text beside the grainline says it."""
    return "bias" if _BIAS.search(words) else "cross" if _CROSS.search(words) else None


def says_pleat(words: str) -> bool:
    return _PLEAT.search(words) is not None


def says_casing(words: str) -> bool:
    return _CASING.search(words) is not None


def says_cut_out(words: str) -> bool:
    return _CUT_OUT.search(words) is not None


def says_dart(words: str) -> bool:
    return _DART.search(words) is not None


_EDGE_WORD = re.compile(
    r"\bedge\b|\bside(?:\s*seam)?\b|\bhem(?:line)?\b|\bneck(?:line)?\b|\bshoulder\b|\barm(?:hole|scye)\b|\bwaist(?:line)?\b"
    r"|\bcent(?:er|re)\s+(?:front|back)\b|\bin(?:ner)?\s*(?:leg|seam)\b|\bout(?:er)?\s*(?:leg|seam)\b|\bcrotch\b|\bcap\b|\bseam\b"
    r"|kante\b|\bseite(?:nnaht)?\b|\bsaum\b|halsausschnitt|\bschulter(?:naht)?\b|\barm(?:loch|ausschnitt)\b|\btaille\b|\b(?:vordere|hintere)\s+mitte\b"
    r"|\bbord\b|\bcôté\b|\bourlet\b|\bencolure\b|\bépaule\b|\bemmanchure\b|\bmilieu\s+(?:devant|dos)\b"
    r"|\bzijnaad\b|\bzoom\b|\bhals\b|\bschouder\b|\barmsgat\b|\bmidden(?:voor|achter)\b|\bcostado\b|\bdobladillo\b|\bescote\b|\bhombro\b|\bsisa\b",
    re.IGNORECASE,
)
_SHORT_FOR = {
    "cf": "center front",
    "cb": "center back",
    "vm": "vordere mitte",
    "hm": "hintere mitte",
    "md": "milieu devant",
    "mdos": "milieu dos",
    "mv": "middenvoor",
    "ma": "middenachter",
}
_TRAILING = re.compile(r"\s+(?:edge|kante)$", re.IGNORECASE)
LONGEST_EDGE_NAME = 30


def without_edge_words(words: str) -> str:
    """A text without the words that edges are called by."""
    return _EDGE_WORD.sub(" ", words)


def edge_name_of(words: str) -> str | None:
    """The name that a text gives the edge it stands beside: "anterior edge" is "anterior", "CF" is "center front"."""
    plain = " ".join(words.split()).strip(" .:,;-–()")
    if plain.lower() in _SHORT_FOR:
        return _SHORT_FOR[plain.lower()]
    if len(plain) > LONGEST_EDGE_NAME or len(plain.split()) > 4 or _EDGE_WORD.search(plain) is None:
        return None
    return _TRAILING.sub("", plain)
