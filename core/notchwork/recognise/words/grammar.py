"""What short texts on a pattern say: lengths, cut orders, allowances, folds, grain, match labels; in several languages."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

JoinKind = Literal["eased", "gathered", "stretched", "pleated"]

_NUMBER = r"(\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)"
_UNIT = r"(mm|cm|inches|inch|in\b|\"|″|'')"
_LENGTH = re.compile(rf"{_NUMBER}\s*{_UNIT}", re.IGNORECASE)
_MM = {"mm": 1.0, "cm": 10.0}


def number_of(text: str) -> float:
    """ "1 5/8", "5/8", "1,5" or "1.5" as a number."""
    return float(sum(Fraction(part.replace(",", ".")) for part in text.split()))


def length_in(words: str) -> float | None:
    """The first length with its unit that words state, in mm."""
    found = _LENGTH.search(words)
    if found is None:
        return None
    return number_of(found[1]) * _MM.get(found[2].lower(), 25.4)


# --- cut orders ------------------------------------------------------------------------------------------------------

_CUT = r"cut|cut\s+out|zuschneiden|schneiden|couper|coupez|knip|knippen|cortar|tagliare|klipp"
_VERB = re.compile(rf"\b(?:{_CUT})\b:?", re.IGNORECASE)
_COUNT = re.compile(r"(?<![\d.,/])(\d{1,3})\s*(?:x|×|mal)?(?![\d.,/]|\s*(?:mm|cm|in\b|\"))", re.IGNORECASE)
_TIMES = re.compile(
    r"(?<![\w.,/])(?:(\d{1,3})\s*(?:x|×|mal\b)|(?:x|×)\s*(\d{1,3}))(?!\s*\d)(?!\w)", re.IGNORECASE
)
_SIZE_OF_A_THING = re.compile(r"\d\s*(?:x|×)\s*\d", re.IGNORECASE)
_CLAUSES = re.compile(r"[,;/+&]|\band\b|\bund\b|\bet\b|\s+(?=\d{1,3}\s*(?:x|×))", re.IGNORECASE)
_PAIR = re.compile(
    r"\b(?:(?:in\s+)?pairs?|paare?|paarweise|gegengleich|paires?|en\s+vis-à-vis|paar|mirrored|spiegelbildlich|gespiegeld|pares?)\b",
    re.IGNORECASE,
)
_ALIKE = re.compile(r"\b(?:alike|identical|same|gleich|identiques?|gelijk|iguales)\b", re.IGNORECASE)
_TURNED = re.compile(r"\bturned\s+over\b", re.IGNORECASE)
_ON_FOLD = re.compile(
    r"\b(?:(?:on|at|to)\s+(?:the\s+)?fold|im\s+(?:stoff)?bruch|auf\s+falte|(?:au|sur\s+(?:le|la))\s+(?:pli|pliure)|"
    r"(?:aan|op)\s+(?:de\s+)?(?:stof)?vouw|al\s+doblez)\b",
    re.IGNORECASE,
)
_FILLING = re.compile(
    r"\b(?:of|from|in|the|out|aus|de|du|en|uit|pieces?|pcs?|times|mal|fois|keer|veces|each|per\s+size|on|x|and|und|et|fabric|stoff|tissu)\b|[×:()\[\]*–-]",
    re.IGNORECASE,
)
_INTERFACING = re.compile(r"interfac|fusible|vlies|einlage|entoilage|thermocollant|vlieseline", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Order:
    """One cut order as it was said. ``pairs``: True in pairs, False alike, None where it is not said."""

    count: int
    pairs: bool | None = None
    material: str | None = None
    on_fold: bool = False
    turned: bool = False


def cut_orders(words: str) -> tuple[Order, ...]:
    """The cut orders that a text gives: "cut 2 lining, 1 on fold", "2x", "cut 1 pair"; none where it gives no count."""
    verb = _VERB.search(words)
    if _SIZE_OF_A_THING.search(words) or (verb is None and _TIMES.search(words) is None):
        return ()
    orders = _orders(words[verb.end() :] if verb is not None else words, verb)
    if not orders and verb is not None:
        # "2x zuschneiden im Bruch": the count may stand before the verb.
        orders = _orders(words, verb)
    if not orders and verb is not None and _ON_FOLD.search(words):
        orders.append(Order(1, on_fold=True))
    return tuple(orders)


def _orders(body: str, verb: re.Match[str] | None) -> list[Order]:
    orders: list[Order] = []
    for clause in _CLAUSES.split(body):
        order = _order(clause, needs_times=verb is None and not orders)
        if order is not None:
            orders.append(order)
        elif orders:
            orders[-1] = _added(orders[-1], clause)
    return orders


def _order(clause: str, needs_times: bool) -> Order | None:
    found = _TIMES.search(clause) or (None if needs_times else _COUNT.search(clause))
    if found is None:
        return None
    count = int(next(group for group in found.groups() if group))
    if not 1 <= count <= 200:
        return None
    rest = clause[: found.start()] + " " + clause[found.end() :]
    by_pairs = re.match(r"\s*(?:pairs?|paare?|paires?|pares?|paar)\b", clause[found.end() :], re.IGNORECASE)
    pairs = True if _PAIR.search(rest) else False if _ALIKE.search(rest) else None
    on_fold, turned = _ON_FOLD.search(rest) is not None, _TURNED.search(rest) is not None
    return Order(2 * count if by_pairs else count, pairs, _material(rest), on_fold, turned)


def _added(order: Order, clause: str) -> Order:
    """A clause without a count says more of the order before it."""
    pairs = True if _PAIR.search(clause) else False if _ALIKE.search(clause) else order.pairs
    return Order(
        order.count,
        pairs,
        order.material or _material(clause),
        order.on_fold or _ON_FOLD.search(clause) is not None,
        order.turned or _TURNED.search(clause) is not None,
    )


def _material(words: str) -> str | None:
    for said in (_ON_FOLD, _PAIR, _ALIKE, _TURNED, _VERB, _FILLING):
        words = said.sub(" ", words)
    name = " ".join(words.split()).strip(" .!?'\"")
    return name if any(c.isalpha() for c in name) and len(name) <= 40 else None


def is_interfacing(material: str) -> bool:
    return _INTERFACING.search(material) is not None


# --- allowances, folds, grain ----------------------------------------------------------------------------------------

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


# --- edges -----------------------------------------------------------------------------------------------------------

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


def edge_name_of(words: str) -> str | None:
    """The name that a text gives the edge it stands beside: "anterior edge" is "anterior", "CF" is "center front"."""
    plain = " ".join(words.split()).strip(" .:,;-–()")
    if plain.lower() in _SHORT_FOR:
        return _SHORT_FOR[plain.lower()]
    if len(plain) > LONGEST_EDGE_NAME or len(plain.split()) > 4 or _EDGE_WORD.search(plain) is None:
        return None
    return _TRAILING.sub("", plain)


# --- match labels ----------------------------------------------------------------------------------------------------

_LABEL = re.compile(
    r"(?P<label>[A-Z]{1,3}|[a-z]|[A-Z]{1,2}\d{1,2}|\d{1,3}|\d{1,2}(?![xX])[A-Za-z])"
    r"(?:[\s,;:]+side\s*(?P<side>[12]))?(?:[\s,;:(]+(?P<rest>\D.*?)\)?)?\s*"
)
_JOIN = re.compile(
    rf"(?P<eased>eased?|einhalten|mehrweite|soutenir|embu|inhouden)|(?P<gathered>gather(?:ed|s)?|kräuseln|einreihen|fronce[rs]?|rimpelen)"
    rf"|(?P<stretched>stretch(?:ed)?|dehnen|étirer)|(?P<pleated>pleated|gefaltet)|{_NUMBER}",
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
SIZE_NAMES = frozenset(
    ["XXXS", "XXS", "XS", "S", "M", "L", "XL", "XXL", "XXXL", "2XL", "3XL", "4XL", "2XS", "3XS"]
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
    """The match label that a text is; None of words, CF, CB, L, R and the like. Size names are for the caller to leave out."""
    found = _LABEL.fullmatch(words.strip())
    if found is None or found["label"].upper() in NO_LABELS:
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
    number = re.search(_NUMBER, said)
    if kind == "eased":
        length = length_in(said)
        return Stated(kind, length if length is not None else number_of(number[0]) if number else None)
    return Stated(kind, number_of(number[0]) if number is not None and kind != "pleated" else None)
