"""What a ``use`` element uses: found by its id in the same drawing, never fetched, never without end.

Source: SVG 2, 5.6.
"""

from __future__ import annotations

from typing import Any

from lxml import etree

from notchwork_plugins.svg.tree import XLINK

MOST_REUSED = 128 * 2**20
"""Bytes of attributes that may be gone through again; a few hundred bytes can ask for any amount."""
MOST_DEEP = 32
"""As many uses may lie in each other."""


class Dead(Exception):
    """Nothing can be used here; says why, as a sentence about ``{things}``."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


class Reuse:
    """The parts of a drawing by their ids, and how much was used again."""

    def __init__(self, root: Any) -> None:
        self.ids: dict[str, Any] = {}
        for element in root.iter("*"):
            ident = element.get("id")
            if ident is not None:
                # The first of several with one id is the one that is meant.
                self.ids.setdefault(ident, element)
        self._root = root
        self._weights: dict[str, int] | None = None
        self._spent = 0

    @property
    def is_exhausted(self) -> bool:
        """Whether more was used again than any drawing needs."""
        return self._spent > MOST_REUSED

    def target(self, uses: tuple[Any, ...]) -> Any:
        """The part that the last of ``use`` elements, each met in what the one before it stands for, uses. Raises Dead."""
        element = uses[-1]
        link = (element.get("href") or element.get(f"{XLINK}href") or "").strip()
        if not link:
            raise Dead("It is not said what is used: {things}.")
        if not link.startswith("#"):
            raise Dead("Parts of other files are not fetched: {things}.")
        ident = link[1:]
        target = self.ids.get(ident)
        if target is None:
            raise Dead("What is used here is not in the drawing: {things}.")
        if any(holder is target for use in uses for holder in (use, *use.iterancestors())):
            raise Dead("Left out, because it would use itself without end: {things}.")
        if len(uses) > MOST_DEEP:
            raise Dead("Left out, because too many parts use each other in turn: {things}.")
        self._spent += self._weight(ident)
        return target

    def _weight(self, ident: str) -> int:
        if self._weights is None:
            self._weights = _weights(self._root)
        return self._weights.get(ident, 0)


def _weights(root: Any) -> dict[str, int]:
    """How many bytes of attributes and text each part with an id holds, found in one pass."""
    found: dict[str, int] = {}
    sums = [0]
    for event, element in etree.iterwalk(root, events=("start", "end")):
        if event == "start":
            sums.append(sum(map(len, element.values())) + len(element.text or "") + len(element.tail or ""))
        else:
            own = sums.pop()
            sums[-1] += own
            ident = element.get("id")
            if ident is not None:
                found[ident] = max(own, found.get(ident, 0))
    return found
