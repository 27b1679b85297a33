"""From labels to seams, and what is to be told of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork.findings import Finding
from notchwork.model import Join, Pattern, Seam, Side, Span
from notchwork.model import Place as On
from notchwork.recognise.labels.chains import Chain, Outlines, Reading, Walked
from notchwork.recognise.labels.choose import Choice, best_choices, linked
from notchwork.recognise.labels.found import EdgeOf, Labelled, labelled_edges, size_figures
from notchwork.recognise.labels.stations import likeness, mismatches, rotations
from notchwork.recognise.labels.tell import (
    alone,
    direction_unknown,
    none_answered,
    ring_start,
    seam_told,
    sides_unknown,
    size_names,
    sizes_not_labels,
    unclear,
)
from notchwork.recognise.words import PieceRead
from notchwork.recognise.words.label_words import Stated
from notchwork.sewing import Nest
from notchwork.sewing.counts.copies import cut_in_both_hands
from notchwork.sewing.pieces.symmetry import falls_on_itself

AS_GOOD = 0.5
"""mm: stations that meet no better than this are no reason to prefer a direction."""


def seams_of(pattern: Pattern, pieces: Mapping[str, PieceRead]) -> tuple[dict[str, Seam], list[Finding]]:
    """The seams that match labels state, by label, and what is to be said of them."""
    telling: list[Finding] = [*unclear(pieces), *size_names(pieces)]
    if figures := size_figures(pieces):
        telling.append(sizes_not_labels(figures))
    labels = labelled_edges(pieces).values()
    usable = [label for label in labels if len(label.edges) > 1]
    single = [label for label in labels if len(label.edges) == 1]
    if single and not usable:
        telling.append(none_answered(single, pieces))
    else:
        telling += [alone(label, pieces) for label in single]
    seams: dict[str, Seam] = {}
    if usable:
        outlines = Outlines(
            {ident: len(read.drawn.edges) for ident, read in pieces.items()},
            {ident: read.drawn.rim.sense for ident, read in pieces.items()},
        )
        as_drawn = _cut_as_drawn(pattern)
        for group in linked(usable):
            seams |= _seams(group, outlines, as_drawn, pattern, pieces, telling)
    order = [label.label for label in usable if label.label in seams]
    return {name: seams[name] for name in order}, telling


def _cut_as_drawn(pattern: Pattern) -> list[str]:
    """The pieces that are cut in one hand only and have no mirror image of their own."""
    nest = Nest(pattern)
    return [
        ident
        for ident, graded in nest.pieces.items()
        if cut_in_both_hands(graded) is False and not falls_on_itself(nest, graded)
    ]


def _seams(
    group: Sequence[Labelled],
    outlines: Outlines,
    as_drawn: Sequence[str],
    pattern: Pattern,
    pieces: Mapping[str, PieceRead],
    telling: list[Finding],
) -> dict[str, Seam]:
    choices = best_choices(group, outlines, as_drawn)
    judge = _Judge(group, choices, pattern, pieces)
    chosen = judge.best(choices)
    seams: dict[str, Seam] = {}
    for label in group:
        found = chosen.seams[label.label]
        if len(found) != 1:
            telling.append(sides_unknown(label, pieces, several=bool(found)))
            continue
        reading = judge.begun(label.label, found[0])
        seams[label.label] = seam_of(label, reading, pieces)
        telling.append(seam_told(label, reading, pieces))
        directions = {
            _ways(r) for c in choices for r in c.seams[label.label] if len(c.seams[label.label]) == 1
        }
        if len(directions) > 1:
            telling.append(direction_unknown(label, reading, pieces))
        if len(rotations(found[0])) > 1:
            telling.append(ring_start(label, reading, pieces))
    return seams


class _Judge:
    """Weighs readings that joints and hands allow alike: by their stations, then by how they lie on the drawing."""

    def __init__(
        self,
        group: Sequence[Labelled],
        choices: Sequence[Choice],
        pattern: Pattern,
        pieces: Mapping[str, PieceRead],
    ) -> None:
        self._pieces = pieces
        self._labels = {label.label: label for label in group}
        candidates = {
            (name, r): ""
            for choice in choices
            for name, found in choice.seams.items()
            if len(found) == 1
            for r in rotations(found[0])
        }
        names = {key: f"candidate {number}" for number, key in enumerate(candidates)}
        seams = {named: seam_of(self._labels[key[0]], key[1], pieces) for key, named in names.items()}
        off = mismatches(pattern, seams) if len(seams) > len(group) else dict.fromkeys(seams, 0.0)
        self._off = {key: off[named] for key, named in names.items()}
        self._like = {key: likeness(key[1], pieces) for key in names}

    def begun(self, name: str, reading: Reading) -> Reading:
        """A ring begun where its stations meet best; of equals the one that lies alike on the drawing, then the first."""
        turns = rotations(reading)
        least = min(self._off[name, turn] for turn in turns)
        good = [turn for turn in turns if self._off[name, turn] <= least + AS_GOOD]
        return max(good, key=lambda turn: round(self._like[name, turn], 1))

    def best(self, choices: Sequence[Choice]) -> Choice:
        def weighed(choice: Choice) -> tuple[float, float]:
            off = like = 0.0
            for name, found in choice.seams.items():
                if len(found) == 1:
                    reading = self.begun(name, found[0])
                    off += self._off[name, reading]
                    like += self._like[name, reading]
            return off, like

        weights = [weighed(choice) for choice in choices]
        least = min(off for off, _ in weights)
        good = [(like, -k) for k, (off, like) in enumerate(weights) if off <= least + AS_GOOD]
        return choices[-max(good)[1]]


def _ways(reading: Reading) -> frozenset[tuple[EdgeOf, EdgeOf, bool]]:
    """Which edges of the two sides run the same way, each in its outline's order: the seam's direction, comparable."""
    return frozenset((a.edge, b.edge, a.forward == b.forward) for a in reading.one for b in reading.other)


def seam_of(label: Labelled, reading: Reading, pieces: Mapping[str, PieceRead]) -> Seam:
    """The seam; the side whose label states a join is the further one."""
    one, other = reading.one, reading.other
    stated = [label.joins.get(walked.edge) for walked in other]
    join = next((j for j in stated if j is not None), None)
    if join is None:
        join = next((j for walked in one if (j := label.joins.get(walked.edge)) is not None), None)
        if join is not None:
            one, other = other, one
    return Seam(
        sides=(_side(one, pieces), _side(other, pieces, join)),
        name=f"Seam {label.label}",
        closed=reading.closed,
    )


def _side(chain: Chain, pieces: Mapping[str, PieceRead], stated: Stated | None = None) -> Side:
    join = None
    if stated is not None:
        join = Join(
            stated.kind,
            amount=stated.figure if stated.kind == "eased" else None,
            ratio=stated.figure if stated.kind in ("gathered", "stretched") else None,
        )
    return Side(tuple(_span(walked, pieces) for walked in chain), join)


def _span(walked: Walked, pieces: Mapping[str, PieceRead]) -> Span:
    ident, edge = walked.edge
    read = pieces[ident]
    names = read.drawn.edges
    target = f"{ident}.{names[edge]}"
    nodes = read.piece.outline or next(iter((read.piece.outlines or {}).values()), ())
    corners = {node.edge: node.name or node.edge for node in nodes if node.edge is not None}
    if len(names) == 1:
        start = On(str(corners[names[0]]))
        return Span(target, start=start, way="forward" if walked.forward else "back")
    if walked.forward:
        return Span(target)
    after = names[(edge + 1) % len(names)]
    return Span(target, start=On(str(corners.get(after, after))))
