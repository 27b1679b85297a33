"""A piece of the convention as a group of a drawing: every line, point and text with its meaning, in every size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Dot, Fact, Group, Meaning, Stroke, Text
from notchwork.geometry import lines
from notchwork.recognise.meant import NAMELESS
from notchwork_plugins.dxf.convention.curves import Curves
from notchwork_plugins.dxf.convention.notches import Notch
from notchwork_plugins.dxf.convention.orders import Order, order_texts
from notchwork_plugins.dxf.convention.outline import Ring
from notchwork_plugins.dxf.convention.plan import Plan, Use, nodes_on
from notchwork_plugins.dxf.convention.sheet import Complexes, Sheet, Words

INSIDE, OUTSIDE = 3.0, 6.0
"""mm that the tick of a notch reaches into the piece, and into the allowance at most."""
TYPE = 5.0
"""Height (mm) of words whose height the file leaves at 0."""
Facts = Mapping[Fact, str | float]


@dataclass(frozen=True, slots=True, eq=False)
class InSize:
    """A piece in one size, None where there is only one. ``plan`` is the same for sizes that were graded from one block."""

    size: str | None
    sheet: Sheet
    plan: Plan
    notches: Sequence[Notch] = ()
    orders: Sequence[Order] = ()

    @property
    def facts(self) -> Facts:
        return {} if self.size is None else {"size": self.size}


@dataclass(frozen=True, slots=True, eq=False)
class PieceRead:
    """A piece in all its sizes, the drafted one first."""

    ident: str
    name: str | None
    sizes: Sequence[InSize]
    shift: complex
    notes: Sequence[str] = ()

    @property
    def first(self) -> InSize:
        return self.sizes[0]

    def ask(self, curves: Curves) -> None:
        """Ask for the curves of everything that is drawn."""
        first = self.first
        for here in self.sizes:
            # Sizes that were graded from one block have the same vertices; of others that is seen line by line.
            graded = here is not first and here.plan is first.plan
            for ring in (here.plan.outline, here.plan.cut):
                if ring is not None:
                    z = here.sheet.lines[ring.line].z
                    like = (id(first), ring.line) if graded else None
                    curves.ask_ring((id(here), ring.line), z, ring, like)
            for k, use in here.plan.lines.items():
                line = here.sheet.lines[k]
                corners = list(use.apexes) if use.meaning == "dart" else None
                like = (id(first), k) if here is not first and self._same(k, use) else None
                curves.ask((id(here), k), line.z, line.closed, corners, nodes_on(here.sheet, line), like)

    def _same(self, number: int, use: Use) -> bool:
        """Whether a line of that number is the same line in the drafted size."""
        other = self.first.plan.lines.get(number)
        return (
            other is not None
            and other.meaning == use.meaning
            and other.facts.get("name") == use.facts.get("name")
        )

    def group(self, curves: Curves) -> Group:
        parts = [part for here in self.sizes for part in self._parts(here, curves)]
        return Group(
            self.ident,
            tuple(part for part in parts if isinstance(part, Stroke)),
            tuple(part for part in parts if isinstance(part, Dot)),
            tuple(self._texts()),
            self.shift,
            {**({} if self.name is None else {"name": self.name}), **self.first.plan.facts},
        )

    def _parts(self, here: InSize, curves: Curves) -> Iterator[Stroke | Dot]:
        yield from self._outline(here, curves)
        for k, use in here.plan.lines.items():
            yield from _line(here, use, here.sheet.lines[k].closed, curves.of((id(here), k)))
        for k, use in here.plan.spots.items():
            yield Dot(here.sheet.spots[k].at, use.meaning, {**use.facts, **here.facts})
        for notch in here.notches:
            yield from _ticks(here, notch)

    def _outline(self, here: InSize, curves: Curves) -> Iterator[Stroke]:
        plan = here.plan
        edges = curves.edges((id(here), plan.outline.line), plan.outline)
        meaning: Meaning = "stitch" if plan.sewn else "cut"
        for k in _rolled(self.first, here):
            facts: Facts = {
                "edge": plan.outline.names[k] or NAMELESS,
                **({"kind": "unknown"} if plan.doubtful else {}),
                **here.facts,
            }
            yield Stroke(edges[k], "fold" if k in plan.outline.folds else meaning, facts=facts)
        if plan.cut is not None:
            yield from _cut(plan.cut, curves.edges((id(here), plan.cut.line), plan.cut), here.facts)

    def _texts(self) -> Iterator[Text]:
        seen: set[str] = set()
        for here in self.sizes:
            for words in here.plan.notes:
                if words.words and words.words not in seen:
                    seen.add(words.words)
                    yield Text(words.at, words.words, _height(words), "note")
        at = self._middle()
        for k, note in enumerate(self.notes):
            yield Text(at - 1.35j * TYPE * (k + 2), note, TYPE, "note")
        orders = {here.size: list(here.orders) for here in self.sizes}
        for k, text in enumerate(order_texts(orders, at, bool(self.first.plan.outline.folds))):
            yield Text(at + 2.7j * TYPE * (k + 1), text.words, text.height, text.meaning, facts=text.facts)

    def _middle(self) -> complex:
        return complex(self.first.sheet.lines[self.first.plan.outline.line].z.mean())


def _height(words: Words) -> float:
    return words.height if words.height > 0.0 else TYPE


def _rolled(first: InSize, here: InSize) -> list[int]:
    """The numbers of the edges, from the one that is the first in the drafted size: by its name, else by where corners lie."""
    ring, base = here.plan.outline, first.plan.outline
    numbers = list(range(ring.count))
    if ring is base or ring.count != base.count:
        return numbers
    name = base.names[0]
    if name is not None and name in ring.names:
        k = ring.names.index(name)
    else:
        mine, theirs = (_corners(one) for one in (here, first))
        k = min(numbers, key=lambda turn: float(np.abs(np.roll(mine, -turn) - theirs).sum()))
    return numbers[k:] + numbers[:k]


def _corners(one: InSize) -> Complexes:
    z = one.sheet.lines[one.plan.outline.line].z
    at: Complexes = z[list(one.plan.outline.corners) or [0]]
    centred: Complexes = at - at.mean()
    return centred


def _cut(ring: Ring, edges: Sequence[Complexes], facts: Facts) -> Iterator[Stroke]:
    """The cut line beside a stitch line, open along folds, where nothing is cut."""
    if not ring.folds:
        yield Stroke(np.concatenate(edges), "cut", True, facts)
        return
    first = next(k for k in range(len(edges)) if k in ring.folds)
    run: list[Complexes] = []
    for k in [*range(first + 1, len(edges)), *range(first + 1)]:
        if k not in ring.folds:
            run.append(edges[k])
        elif run:
            yield Stroke(np.concatenate(run), "cut", facts=facts)
            run = []


def _line(here: InSize, use: Use, closed: bool, cubics: Complexes) -> Iterator[Stroke | Dot]:
    facts = {**use.facts, **here.facts}
    if use.meaning == "dart":
        turned = closed and use.apexes[0] > use.apexes[-1]
        yield from _dart(np.roll(cubics, -2, axis=0) if turned else cubics, closed, facts)
    elif use.meaning == "grain":
        a, b = complex(cubics[0, 0]), complex(cubics[-1, 3])
        yield Stroke(
            lines(np.array([a, b])), "grain", facts={**facts, "angle": float(np.degrees(np.angle(b - a)))}
        )
    else:
        yield Stroke(cubics, use.meaning, closed, facts)


def _dart(cubics: Complexes, closed: bool, facts: Facts) -> Iterator[Stroke | Dot]:
    """The legs of a dart from its feet to its points, as drawings of this program have them."""
    if closed and len(cubics) == 4:
        # From its first point round: away from it, to the other, away from that, home.
        legs = [cubics[3], cubics[0][::-1], cubics[2][::-1], cubics[1]]
    elif len(cubics) == 2:
        legs = [cubics[0], cubics[1][::-1]]
    else:
        yield Stroke(cubics, "inner", closed, {key: value for key, value in facts.items() if key != "to"})
        return
    for leg in legs:
        yield Stroke(leg[None, :], "dart", facts=facts)
    for leg in legs[::2]:
        yield Dot(complex(leg[3]), "dart", {key: value for key, value in facts.items() if key != "to"})


def _ticks(here: InSize, notch: Notch) -> Iterator[Stroke]:
    """A tick for each nick of a notch: across the stitch line, or from a cut line inward."""
    name = here.plan.outline.names[notch.feet[0].edge]
    if here.plan.outline.names.count(name) > 1:
        # Both halves of a piece that is drawn whole have such an edge: the place decides.
        name = None
    facts: dict[Fact, str | float] = {
        "name": str(notch.name),
        "kind": ("single", "double", "triple")[len(notch.feet) - 1],
        **({} if name is None else {"edge": name}),
        **({"use": "place"} if notch.place_only else {}),
        **here.facts,
    }
    for foot in notch.feet:
        spot = foot.spot
        outside = min(abs(spot.at - foot.at), OUTSIDE) if here.plan.sewn else 0.0
        inside = INSIDE if here.plan.sewn else spot.depth or OUTSIDE
        own: dict[Fact, str | float] = {**facts, "depth": outside}
        if spot.angle is not None:
            own["angle"] = spot.angle
        if spot.width is not None and len(notch.feet) == 1:
            own["width"] = spot.width
        tick = np.array([foot.at - inside * foot.outward, foot.at + outside * foot.outward])
        yield Stroke(lines(tick), "notch", facts=own)
