"""What is said of a piece in words: its name, its cut orders, and whatever a cutter must know of how it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from notchwork.drawing import Fact, Facts, Group, Text
from notchwork_plugins.dxf.write.graded import Sized

PLIES = " + "
"""Between the materials of one order that are cut together; this program's own."""
FACTS: Final[Mapping[Fact, str]] = {"use": "USE", "grain": "GRAIN", "to": "BIAS TO"}
"""What is said of a piece in annotations, because the convention has no key for it."""


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
                yield Stated("MATERIAL", PLIES.join(str(text.facts["material"]).split(".")), holds)
    if boundary_is:
        yield Stated("ANNOTATION", boundary_is, every)


def further(sized: Sized) -> Iterator[str]:
    """What else is to be said of a piece."""
    facts = sized.group.facts
    yield from (f"{key}: {facts[fact]}" for fact, key in FACTS.items() if fact in facts)
    if facts.get("kind") == "strip":
        yield "STRIP: cut by measure"


def _quantity(facts: Facts, in_pairs: bool) -> str:
    """How many are cut: as drawn and mirrored, wherever one number would leave open which. From memory of ASTM D6673-10, and not
    certain."""
    count = round(float(facts["quantity"]))
    mirrored = count if facts.get("use") == "turned" else count // 2 if facts.get("kind") == "mirrored" else 0
    if not in_pairs or (count < 2 and not mirrored):
        return str(count)
    return f"{count - mirrored}, {mirrored}"


def notes(group: Group) -> Iterator[Text]:
    """What else its maker wrote on the piece."""
    for text in group.texts:
        if text.meaning == "note" and not {"quantity", "kind"} & set(text.facts):
            yield text
