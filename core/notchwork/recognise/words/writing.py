"""What is written on and beside one piece: its name, its edges' names, folds, cut orders, allowances, labels, notes."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from notchwork.drawing import Text
from notchwork.model import Finish
from notchwork.recognise.words.beside import beside, gap_to
from notchwork.recognise.words.cut_words import Order, cut_orders
from notchwork.recognise.words.finishes import finish_of
from notchwork.recognise.words.grammar import (
    allowance_of,
    edge_name_of,
    length_in,
    says_casing,
    says_cut_out,
    says_fold,
    says_grain,
    says_pleat,
    speaks_of_allowance,
)
from notchwork.recognise.words.label_words import Label, Stated, join_of, label_of
from notchwork.recognise.words.paragraphs import paragraphs
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.size_names import SIZE_NAMES

MOST_WORDS = 4
LONGEST_NAME = 40
FAR, NEAR = 80.0, 0.5
"""mm, and the share of a piece's size: a name stands no further from its piece."""
DIMENSION = 0.02
"""A figure this near to the edge's own length (as a share) is its dimension."""

_BULLET = re.compile(r"\s*[-–•*]\s")
_HEAD = re.compile(r"[^.:;(\[\n]*")
_THING = re.compile(
    r"velcro|zip(?:per)?s?|webbing|buckles?|elastic|foam|buttons?|snaps?|cord|drawcord|tape|reißverschluss|gurtband",
    re.IGNORECASE,
)
"""What is sewn on a piece rather than cut: it names a piece only where nothing else does."""
_ONLY_FIGURES = re.compile(r"[\d\s.,/×x*+=-]*(?:mm|cm|m|in|inch|inches|\"|'|″|°|%)?", re.IGNORECASE)


class LabelAt(NamedTuple):
    """A match label beside an edge, and how far (mm) it is off."""

    label: Label
    edge: int
    distance: float
    at: complex


@dataclass(slots=True)
class Written:
    """Everything that the words of one piece say. Edges are numbers."""

    name: str | None = None
    edge_names: dict[int, str] = field(default_factory=dict)
    folds: dict[int, str] = field(default_factory=dict)
    finishes: dict[int, Finish] = field(default_factory=dict)
    orders: list[tuple[Order, str]] = field(default_factory=list)
    allowance: float | None = None
    allowance_words: str = ""
    labels: list[LabelAt] = field(default_factory=list)
    unclear: list[tuple[str, complex]] = field(default_factory=list)
    size_names: list[tuple[str, int]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def read_writing(
    texts: Sequence[Text], rims: Sequence[Rim], sizes: Collection[str], named: bool = False
) -> Written:
    """Read the words on a piece. ``rims`` are its outline in every size, the drafted one first; ``sizes`` are size names.

    ``named``: the drawing itself says what the piece is called, so no words are taken for its name.
    """
    written = Written()
    joins: list[tuple[Text, Stated]] = []
    names: list[tuple[tuple[float, ...], str]] = []
    for paragraph in paragraphs(texts):
        left: list[Text] = []
        for text in paragraph:
            if not _is_taken(text, rims, sizes, written, joins, alone=len(paragraph) == 1):
                left.append(text)
        if left:
            names += [] if named else _name_in(left, rims)
            written.notes += [text.words.strip() for text in left if text.words.strip()]
    if names:
        (_, written.name) = min(names, key=lambda found: found[0])
        if written.name in written.notes:
            written.notes.remove(written.name)
    _state_joins(written, joins)
    return written


def _is_taken(
    text: Text,
    rims: Sequence[Rim],
    sizes: Collection[str],
    written: Written,
    joins: list[tuple[Text, Stated]],
    alone: bool,
) -> bool:
    """Whether a line says something of its own, which is then entered; what is left may be a name or a note."""
    words = text.words.strip()
    if text.meaning in ("size-name", "legend") or not words or words in sizes:
        return True
    orders = cut_orders(words)
    if orders:
        written.orders += [(order, words) for order in orders]
        return True
    if speaks_of_allowance(words):
        width = allowance_of(words)
        if width is not None and written.allowance is None:
            written.allowance, written.allowance_words = width, words
        return width is not None
    if alone and _is_label(text, rims, written):
        return True
    if alone and (join := join_of(words)) is not None:
        joins.append((text, join))
        return True
    if says_fold(words):
        place = beside(text, rims)
        if place is not None:
            written.folds[place.edge] = words
            return True
    finish = finish_of(words) if alone else None
    name = finish.name if finish is not None else edge_name_of(words) if alone else None
    if (finish is not None or name is not None) and (place := beside(text, rims)) is not None:
        if name is not None:
            written.edge_names.setdefault(place.edge, name)
        if finish is not None:
            written.finishes.setdefault(place.edge, finish.finish)
        return True
    if says_grain(words) or says_pleat(words) or says_casing(words) or says_cut_out(words):
        return len(words.split()) <= MOST_WORDS
    return _ONLY_FIGURES.fullmatch(words) is not None


def _is_label(text: Text, rims: Sequence[Rim], written: Written) -> bool:
    label = label_of(text.words)
    if label is None:
        if text.words.strip().upper() in SIZE_NAMES and (place := beside(text, rims)) is not None:
            written.size_names.append((text.words.strip(), place.edge))
        return False
    place = beside(text, rims)
    if place is None:
        return False
    if label.name.isdigit() and _is_dimension(float(label.name), place.edge, rims):
        return True
    middle = complex(sum(text.box) / 4)
    if place.clear:
        written.labels.append(LabelAt(label, place.edge, place.distance, middle))
    else:
        written.unclear.append((text.words.strip(), middle))
    return True


def _is_dimension(figure: float, edge: int, rims: Sequence[Rim]) -> bool:
    lengths = np.array([rim.length(edge) for rim in rims])
    return any(
        bool((np.abs(lengths - figure * unit) <= DIMENSION * lengths).any()) for unit in (1.0, 10.0, 25.4)
    )


def _state_joins(written: Written, joins: Sequence[tuple[Text, Stated]]) -> None:
    """ "ease 25 mm" belongs to the label that stands nearest to it."""
    for text, join in joins:
        middle = sum(text.box) / 4
        free = [k for k, at in enumerate(written.labels) if at.label.join is None]
        nearest = min(free, key=lambda k: abs(written.labels[k].at - middle), default=None)
        if nearest is None or abs(written.labels[nearest].at - middle) > max(6.0 * text.height, 40.0):
            written.notes.append(text.words.strip())
            continue
        found = written.labels[nearest]
        written.labels[nearest] = found._replace(label=Label(found.label.name, found.label.side, join))


def _name_in(lines: Sequence[Text], rims: Sequence[Rim]) -> Iterator[tuple[tuple[float, ...], str]]:
    """What may be the piece's name in a paragraph: its first line, where that is short, or the head of it; with its rank."""
    first = lines[0]
    whole = " ".join(first.words.split()).strip(" -–•*,")
    head = found[0].strip(" -–•*,") if (found := _HEAD.match(whole)) else whole
    is_heading = len(lines) > 1 and _BULLET.match(lines[1].words) is not None
    for words in (head, whole):
        plain = words.strip()
        if (
            not any(c.isalpha() for c in plain)
            or len(plain) > LONGEST_NAME
            or len(plain.split()) > MOST_WORDS
        ):
            continue
        if (
            plain.upper() in SIZE_NAMES
            or length_in(plain) is not None
            or len(plain) < 3
            or _BULLET.match(first.words)
        ):
            continue
        gap = gap_to(first, rims[0])
        if gap > max(FAR, NEAR * rims[0].across):
            return
        # Pieces before what is sewn on them, headings before all else, inside before outside, words of their own before
        # the head of a note, larger type first, then the nearer one.
        thing = _THING.fullmatch(plain) is not None
        note = not is_heading and (len(lines) > 2 or words != whole)
        yield (
            (float(thing), float(not is_heading), float(gap > 0), float(note), -round(first.height, 2), gap),
            plain,
        )
        return
