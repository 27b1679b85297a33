"""Style sheets inside a drawing: the plain selectors that general editors write, and what of others is left out.

Understood are elements, classes, ids and attributes, alone or with one element they lie in ("g rect", "g > rect").
Source: CSS 2.2, chapters 4 to 6; CSS Syntax 3.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import islice
from typing import Any, NamedTuple

from notchwork_plugins.svg.tree import svg_tag

Declared = Mapping[str, str]

MOST_RULES = 5000
MOST_LOOSE = 100
"""As many rules may hold for any element: each is tried on every one."""

MOST_TRIED = 1_500_000
"""So often in all may an element be held against a rule; a drawing with 200,000 parts and 5 rules for each stays below."""

_COMMENT = re.compile(r"/\*.*?(?:\*/|\Z)|<!--|-->", re.DOTALL)
_BRACE = re.compile(r"[{}]")
_COMPOUND = re.compile(r"(\*|[A-Za-z_][\w-]*+)?((?:[.#][\w-]++|\[[^\[\]]++\])*+)")
_PART = re.compile(r"([.#])([\w-]++)|\[\s*([\w:-]++)\s*(?:([~|^$*]?=)\s*([\"']?)([^\"'\]]*+)\5\s*)?\]")


class Declarations(NamedTuple):
    """What is declared, and what is declared to be more important than anything else."""

    normal: Declared
    important: Declared


@lru_cache(maxsize=4096)
def declarations(text: str) -> Declarations:
    """The declarations of a style attribute or of a rule's block."""
    normal: dict[str, str] = {}
    important: dict[str, str] = {}
    for part in (_COMMENT.sub(" ", text) if "/*" in text else text).split(";"):
        name, colon, value = part.partition(":")
        if colon:
            name, value = name.strip().lower(), value.strip()
            if value.lower().endswith("!important"):
                important[name] = value[: -len("!important")].rstrip()
            else:
                normal[name] = value
    return Declarations(normal, important)


class Compound(NamedTuple):
    """What one element must be: its tag, id, classes, and attributes with an operator and a value."""

    tag: str | None
    ident: str | None
    classes: tuple[str, ...]
    attributes: tuple[tuple[str, str, str], ...]

    def fits(self, element: Any, tag: str) -> bool:
        if self.tag is not None and self.tag != tag:
            return False
        if self.ident is not None and element.get("id") != self.ident:
            return False
        if self.classes:
            own = (element.get("class") or "").split()
            if any(name not in own for name in self.classes):
                return False
        return all(_has(element.get(name), op, value) for name, op, value in self.attributes)


def _has(actual: str | None, op: str, value: str) -> bool:
    if actual is None:
        return False
    match op:
        case "":
            return True
        case "=":
            return actual == value
        case "~=":
            return value in actual.split()
        case "^=":
            return value != "" and actual.startswith(value)
        case "$=":
            return value != "" and actual.endswith(value)
        case "*=":
            return value != "" and value in actual
        case _:
            return actual == value or actual.startswith(f"{value}-")


class Rule(NamedTuple):
    """A selector with its declarations; ``order`` sorts rules by how much they weigh, then by where they stand."""

    order: tuple[int, int, int, int]
    compound: Compound
    within: Compound | None
    directly: bool
    declared: Declarations


class TooManyStyles(Exception):
    """The style sheets have more rules than can be tried on so many elements."""


@dataclass(slots=True)
class Sheet:
    """All style sheets of a drawing together; ``unread`` are the rules that were left out, as they are written."""

    unread: list[str] = field(default_factory=list)
    _by_key: dict[str, list[Rule]] = field(default_factory=dict)
    _count: int = 0
    _left: int = field(default_factory=lambda: MOST_TRIED)

    def add(self, text: str) -> None:
        """Another style sheet, after those that are there."""
        for prelude, block in _blocks(_COMMENT.sub(" ", text)):
            if block is None:
                if not prelude.startswith(("@font-face", "@charset", "@namespace")):
                    self.unread.append(prelude)
                continue
            declared = declarations(block)
            if declared.normal or declared.important:
                for selector in prelude.split(","):
                    self._add(selector.strip(), declared)

    def rules(self, element: Any, tag: str) -> list[Rule]:
        """The rules that hold for an element, the weightiest last. Raises TooManyStyles."""
        if not self._count:
            return []
        keys = [f"#{element.get('id')}", tag, ""]
        keys += [f".{name}" for name in dict.fromkeys((element.get("class") or "").split())]
        found = [rule for key in keys for rule in self._by_key.get(key, ()) if self._fits(rule, element, tag)]
        return sorted(found, key=_order) if len(found) > 1 else found

    def _fits(self, rule: Rule, element: Any, tag: str) -> bool:
        self._left -= 1
        if self._left < 0:
            raise TooManyStyles
        if not rule.compound.fits(element, tag):
            return False
        if rule.within is None:
            return True
        for above in islice(element.iterancestors(), 1 if rule.directly else None):
            self._left -= 1
            if rule.within.fits(above, svg_tag(above)):
                return True
        return False

    def _add(self, selector: str, declared: Declarations) -> None:
        rule = _rule(selector, self._count, declared)
        key = "" if rule is None else _key(rule.compound)
        if (
            rule is None
            or self._count >= MOST_RULES
            or (not key and len(self._by_key.get("", ())) >= MOST_LOOSE)
        ):
            self.unread.append(selector)
            return
        self._count += 1
        self._by_key.setdefault(key, []).append(rule)


def _order(rule: Rule) -> tuple[int, int, int, int]:
    return rule.order


def _key(compound: Compound) -> str:
    if compound.ident is not None:
        return f"#{compound.ident}"
    if compound.classes:
        return f".{compound.classes[0]}"
    return compound.tag or ""


def _blocks(text: str) -> Iterator[tuple[str, str | None]]:
    """Every rule's selectors and block; a statement or an @-rule comes with None."""
    at = 0
    while (brace := text.find("{", at)) >= 0:
        *statements, prelude = text[at:brace].split(";")
        yield from ((said.strip(), None) for said in statements if said.strip())
        prelude = prelude.strip()
        if prelude.startswith("@"):
            at = _end_of_block(text, brace)
            yield prelude, None
        else:
            end = text.find("}", brace)
            at = len(text) if end < 0 else end + 1
            yield prelude, text[brace + 1 : at].rstrip("}")
    yield from ((said.strip(), None) for said in text[at:].split(";") if said.strip(" \t\r\n}"))


def _end_of_block(text: str, brace: int) -> int:
    depth = 0
    for found in _BRACE.finditer(text, brace):
        depth += 1 if found[0] == "{" else -1
        if depth == 0:
            return found.end()
    return len(text)


def _rule(selector: str, number: int, declared: Declarations) -> Rule | None:
    words = selector.replace(">", " > ").split()
    directly = len(words) == 3 and words[1] == ">"
    if directly:
        del words[1]
    compounds = [_compound(word) for word in words]
    if not 1 <= len(compounds) <= 2 or None in compounds:
        return None
    *within, own = [compound for compound in compounds if compound is not None]
    every = [own, *within]
    order = (
        sum(c.ident is not None for c in every),
        sum(len(c.classes) + len(c.attributes) for c in every),
        sum(c.tag is not None for c in every),
        number,
    )
    return Rule(order, own, within[0] if within else None, directly, declared)


def _compound(text: str) -> Compound | None:
    whole = _COMPOUND.fullmatch(text)
    if whole is None or not text:
        return None
    ident, classes, attributes = None, [], []
    for sign, name, attribute, op, _, value in _PART.findall(whole[2]):
        if sign == "#":
            ident = name
        elif sign == ".":
            classes.append(name)
        else:
            attributes.append((attribute, op, value))
    if len(classes) + len(attributes) + (ident is not None) != len(re.findall(r"[.#\[]", whole[2])):
        return None
    return Compound(
        whole[1] if whole[1] not in (None, "*") else None, ident, tuple(classes), tuple(attributes)
    )
