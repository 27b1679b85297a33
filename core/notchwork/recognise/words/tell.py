"""What was inferred of a piece, one finding for each kind, with its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from notchwork.findings import Count, Finding, Length, Place, Rule, plain_name
from notchwork.model import Cut, Piece
from notchwork.recognise.words import rules
from notchwork.recognise.words.frame import Drawn

HOW = {
    "words": "by the words beside them",
    "path": "by the ids of their paths",
    "place": "by where they lie",
}


class Telling:
    """Collects the findings of all pieces."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []

    def piece(
        self,
        drawn: Drawn,
        piece: Piece,
        *,
        how: Mapping[int, str],
        named_by: str | None,
        stated_folds: frozenset[int],
        fold_missing: bool,
        paired: bool,
        order_words: Sequence[str],
        allowance: tuple[float, str] | None,
        left_out: Sequence[str],
    ) -> None:
        """Tell what was inferred of one piece; what its drawing states outright is no inference.

        ``named_by`` are the words that it is called by, "" if it has a number, None where its drawing names it.
        """
        self._drawn = drawn
        signs = drawn.signs[drawn.base]
        if named_by is not None:
            text = (
                "It is called by the words “{words}”."
                if named_by
                else "Nothing is written on it, so it has a number."
            )
            self._add(rules.PIECE_NAME, text, {"words": named_by})
        for way, words in HOW.items():
            edges = tuple(plain_name(drawn.edges[k]) for k, said in how.items() if said == way)
            if edges:
                self._add(
                    rules.EDGE_NAME,
                    "Edges are named {how}: {edges}.",
                    {"how": words, "edges": edges},
                    line=drawn.edges[next(k for k, said in how.items() if said == way)],
                )
        nicks = [nick for nick in signs.nicks if nick.name is None]
        if nicks:
            self._add(
                rules.NOTCH,
                "Marks on its edges are taken for notches ({count}).",
                {"count": Count(len(nicks))},
                at=drawn.rim.point(nicks[0].edge, nicks[0].arc),
            )
        if signs.grain is not None and not _stated(drawn, "grain"):
            self._add(rules.GRAIN, "A line is taken for its grainline.", at=sum(signs.grain) / 2)
        folds = [name for name, edge in piece.edges.items() if edge is not None and edge.fold]
        for name in folds:
            if drawn.edges.index(name) not in stated_folds:
                self._add(
                    rules.FOLD, "{edge} lies on the fold.", {"edge": _capital(plain_name(name))}, line=name
                )
        finished = tuple(
            f"{plain_name(name)} ({edge.finish.kind})"
            for name, edge in piece.edges.items()
            if edge is not None and edge.finish is not None
        )
        if finished:
            self._add(
                rules.FINISH,
                "What becomes of edges that no seam takes is read from words: {edges}.",
                {"edges": finished},
                hint="If such an edge is sewn to another, write the same letter beside both.",
            )
        if fold_missing:
            self._add(
                rules.FOLD_UNKNOWN,
                "It is cut on the fold, but nothing says which edge lies there.",
                hint="Write “fold” beside that edge.",
            )
        darts = [wedge for wedge in signs.wedges if wedge.name is None]
        if darts:
            self._add(
                rules.DART,
                "Vs are taken for darts ({count}).",
                {"count": Count(len(darts))},
                at=complex(darts[0].legs[0, 3]),
            )
        if any(pleat.name is None for pleat in signs.pleats):
            self._add(rules.PLEAT, "Pairs of lines are taken for pleats.")
        self._lines(drawn)
        marks = [mark for mark in signs.marks if mark.name is None]
        if marks:
            self._add(
                rules.MARK,
                "Small circles, crosses or points are marks ({count}).",
                {"count": Count(len(marks))},
                at=marks[0].at,
            )
        if signs.unread:
            self._add(
                rules.UNREAD,
                "Strokes on it are not read ({count}).",
                {"count": Count(len(signs.unread))},
                at=complex(signs.unread[0].cubics[0, 0]),
            )
        if order_words:
            how_many = " An even number is taken as cut in pairs." if paired else ""
            said = tuple(f"“{words}”" for words in order_words)
            values = {"said": said, "orders": tuple(_order(cut) for cut in piece.cut or ())}
            self._add(rules.CUT_ORDER, "Cut orders read from {said}: {orders}." + how_many, values)
        if allowance is not None:
            self._add(
                rules.ALLOWANCE,
                "The allowance of {width} is that of a text.",
                {"width": Length(allowance[0])},
            )
        if left_out:
            self._add(
                rules.SIZES_DIFFER,
                "Its outline has other corners in {sizes} than in {base}, so {sizes} is left out.",
                {"sizes": tuple(left_out), "base": str(drawn.base)},
                hint="Draw the same edges in every size.",
            )

    def _lines(self, drawn: Drawn) -> None:
        signs = drawn.signs[drawn.base]
        lines = [line for line in signs.inner if not line.facts]
        if lines:
            self._add(
                rules.INNER,
                "Lines inside it are kept as drawn, not cut ({count}).",
                {"count": Count(len(lines))},
                at=complex(lines[0].cubics[0, 0]),
            )
        holes = [line for line in signs.cutouts if not line.facts]
        if holes:
            self._add(
                rules.CUT_OUT,
                "Closed lines inside it are cut out ({count}).",
                {"count": Count(len(holes))},
                at=complex(np.mean(holes[0].cubics[:, 0])),
            )

    def _add(
        self,
        rule: Rule,
        text: str,
        values: Mapping[str, object] | None = None,
        hint: str = "",
        at: complex | None = None,
        line: str | None = None,
    ) -> None:
        ident = self._drawn.ident
        place = Place(piece=ident, point=at, line=line)
        self.findings.append(Finding(rule, place, text, hint, values or {}, pieces=(ident,)))


def _stated(drawn: Drawn, meaning: str) -> bool:
    return any(stroke.meaning == meaning for stroke in drawn.shape.strokes)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _order(cut: Cut) -> str:
    stuff = f" from {plain_name(cut.material)}" if cut.material else ""
    return f"{cut.count}{' in pairs' if cut.mirrored else ''}{stuff}"
