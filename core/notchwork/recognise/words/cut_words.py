"""Cut orders as they are written on pieces, in several languages."""

from __future__ import annotations

import re
from dataclasses import dataclass

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
