"""What is told of labels: the seams they became, and what they leave open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from notchwork.findings import Finding, Place, listed, plain_name
from notchwork.recognise.labels.chains import MOST_PIECES, Chain, Reading
from notchwork.recognise.labels.found import EdgeOf, Labelled
from notchwork.recognise.words import PieceRead, rules


def _edges(edges: Iterable[EdgeOf], pieces: Mapping[str, PieceRead]) -> str:
    """Edges as people name them: "Front (side and hem) and Back (side)"."""
    by_piece: dict[str, list[str]] = {}
    for ident, number in edges:
        by_piece.setdefault(ident, []).append(plain_name(pieces[ident].drawn.edges[number]))
    return listed(f"{_name(ident, pieces)} ({listed(names)})" for ident, names in by_piece.items())


def _side_of(chain: Chain, pieces: Mapping[str, PieceRead]) -> str:
    return _edges((walked.edge for walked in chain), pieces)


def _name(ident: str, pieces: Mapping[str, PieceRead]) -> str:
    words = plain_name(ident)
    return pieces[ident].piece.name or words[:1].upper() + words[1:]


def seam_told(label: Labelled, reading: Reading, pieces: Mapping[str, PieceRead]) -> Finding:
    return Finding(
        rules.MATCH_LABEL,
        Place(seam=label.label),
        "The label {label} joins {one} to {other}.",
        values={
            "label": label.label,
            "one": _side_of(reading.one, pieces),
            "other": _side_of(reading.other, pieces),
        },
        pieces=label.pieces,
    )


def alone(label: Labelled, pieces: Mapping[str, PieceRead]) -> Finding:
    ident, edge = label.edges[0]
    return Finding(
        rules.LABEL_ALONE,
        Place(piece=ident, line=pieces[ident].drawn.edges[edge]),
        "The label {label} stands beside {edge} only, so it is sewn to nothing.",
        "Write {label} beside the edge that it is sewn to.",
        {"label": label.label, "edge": _edges(label.edges, pieces)},
        pieces=(ident,),
    )


def none_answered(labels: Sequence[Labelled], pieces: Mapping[str, PieceRead]) -> Finding:
    """Labels were written, and none of them stands beside two edges, so that no seam at all is known."""
    where = listed(f"{label.label} beside {_edges(label.edges, pieces)}" for label in labels)
    return Finding(
        rules.LABELS_UNANSWERED,
        Place(),
        "No seam is known, for each label stands beside one edge only: {where}.",
        "Write the same letter beside both edges that are sewn together.",
        {"where": where},
        pieces=tuple(dict.fromkeys(piece for label in labels for piece in label.pieces)),
    )


def sizes_not_labels(figures: Mapping[str, Iterable[str]]) -> Finding:
    """Figures beside outlines that lie in each other."""
    return Finding(
        rules.LABEL_UNCLEAR,
        Place(),
        "The figures {figures} stand beside outlines that lie in each other, so they are taken for sizes and not for match labels.",
        "Use letters for match labels.",
        {"figures": tuple(sorted({name for own in figures.values() for name in own}, key=int))},
        pieces=tuple(figures),
    )


def size_names(pieces: Mapping[str, PieceRead]) -> Iterator[Finding]:
    """Names of sizes that stand beside two edges or more, as a match label would."""
    found: dict[str, dict[EdgeOf, None]] = {}
    for ident, read in pieces.items():
        for words, edge in read.written.size_names:
            found.setdefault(words, {})[EdgeOf(ident, edge)] = None
    for words, edges in found.items():
        if len(edges) > 1:
            yield Finding(
                rules.LABEL_UNCLEAR,
                Place(),
                "“{label}” stands beside {edges}: it names a size, so it is taken for no match label.",
                "If these edges are sewn together, write another letter beside both.",
                {"label": words, "edges": _edges(edges, pieces)},
                pieces=tuple(dict.fromkeys(edge.piece for edge in edges)),
            )


def unclear(pieces: Mapping[str, PieceRead]) -> Iterator[Finding]:
    for ident, read in pieces.items():
        for words, at in read.written.unclear:
            yield Finding(
                rules.LABEL_UNCLEAR,
                Place(piece=ident, point=at),
                "“{label}” stands about as near to one edge as to another.",
                "Move it nearer to its own edge.",
                {"label": words},
                pieces=(ident,),
            )


def sides_unknown(label: Labelled, pieces: Mapping[str, PieceRead], several: bool) -> Finding:
    if several:
        why = "there are several ways to divide them into two sides"
    elif len(label.pieces) > MOST_PIECES:
        why = "these are more pieces than meet in one seam"
    else:
        why = "no way to divide them into two sides has all its joints joined by other seams"
    # Figures beside edges are often counts or sizes of something: letters are meant to be answered.
    return Finding(
        rules.LABEL_UNCLEAR if label.label.isdigit() else rules.SIDES_UNKNOWN,
        Place(piece=label.edges[0].piece),
        "The label {label} stands beside {edges}, and {why}.",
        "Write “{label} side 1” beside the edges of one side and “{label} side 2” beside the others.",
        {"label": label.label, "edges": _edges(label.edges, pieces), "why": why},
        pieces=label.pieces,
    )


def direction_unknown(label: Labelled, reading: Reading, pieces: Mapping[str, PieceRead]) -> Finding:
    return Finding(
        rules.DIRECTION,
        Place(seam=label.label),
        "Nothing tells which end of {other} meets which end of {one}: the way is taken in which notches meet better, or else "
        "in which both run alike on the drawing.",
        "Join more of their edges by labels, or state the seam in the open format.",
        {"one": _side_of(reading.one, pieces), "other": _side_of(reading.other, pieces)},
        pieces=label.pieces,
    )


def ring_start(label: Labelled, reading: Reading, pieces: Mapping[str, PieceRead]) -> Finding:
    return Finding(
        rules.RING_START,
        Place(seam=label.label),
        "Both sides are rings and could begin at any corner: it is taken that {one} begins where {other} does.",
        "A notch on both sides tells otherwise.",
        {"one": _side_of(reading.one[:1], pieces), "other": _side_of(reading.other[:1], pieces)},
        pieces=label.pieces,
    )
