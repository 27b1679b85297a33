"""What is said of a piece in words: its name, its cut orders, and whatever a cutter must know of how it is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from notchwork.drawing import Facts, Group, Text
from notchwork_plugins.dxf.write.graded import Sized


class Stated(NamedTuple):
    """A text KEY: value of a piece, and the sizes for which it holds."""

    key: str
    value: str
    holds: frozenset[int]


def stated(sized: Sized, boundary_is: str, in_pairs: bool) -> Iterator[Stated]:
    """The texts in their order. Every cut order is a quantity followed by its material; ``boundary_is`` says what is drawn, "" of
    a cut line."""
    facts, every = sized.group.facts, frozenset(range(len(sized.sizes)))
    yield Stated("PIECE NAME", str(facts.get("name", sized.group.name)), every)
    for text in sized.group.texts:
        if "quantity" in text.facts and (holds := frozenset(sized.holds(text.facts))):
            yield Stated("QUANTITY", _quantity(text.facts, in_pairs), holds)
            if "material" in text.facts:
                yield Stated("MATERIAL", str(text.facts["material"]), holds)
    if "use" in facts:
        yield Stated("CATEGORY", str(facts["use"]), every)
    if boundary_is:
        yield Stated("ANNOTATION", boundary_is, every)
    if "grain" in facts and not any(True for _ in sized.strokes("grain")):
        yield Stated("ANNOTATION", f"grain {facts['grain']}", every)


def _quantity(facts: Facts, in_pairs: bool) -> str:
    """How many are cut: as drawn and mirrored, where any is mirrored. From memory of ASTM D6673-10, and not certain."""
    count = round(float(facts["quantity"]))
    if not in_pairs or not {"kind", "use"} & set(facts):
        return str(count)
    if facts.get("use") == "turned":
        return f"0, {count}"
    return f"{count - count // 2}, {count // 2}"


def notes(group: Group) -> Iterator[Text]:
    """What else its maker wrote on the piece."""
    for text in group.texts:
        if text.meaning == "note" and "quantity" not in text.facts and text.facts.get("kind") != "fold":
            yield text
