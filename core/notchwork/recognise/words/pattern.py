"""From shapes to pieces: names, edges, signs and words in all sizes, and every inference as a finding."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from notchwork.drawing import Stroke, Text
from notchwork.findings import Finding, plain_name
from notchwork.model import Finish, Material, Pattern, Piece, Sized, Sizes
from notchwork.recognise.shape import Seen, Shape
from notchwork.recognise.words.dents import without_dents
from notchwork.recognise.words.edges import edge_names
from notchwork.recognise.words.finishes import finish_of
from notchwork.recognise.words.folds import folds_drawn
from notchwork.recognise.words.frame import Drawn, Frame
from notchwork.recognise.words.grammar import allowance_of, grain_kind, says_grain
from notchwork.recognise.words.ids import is_made_up, slug, unique, valid
from notchwork.recognise.words.orders import Orders, orders_of
from notchwork.recognise.words.paragraphs import whole_paragraphs
from notchwork.recognise.words.piece import built
from notchwork.recognise.words.read import read_signs
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.sized import Shifts, sized
from notchwork.recognise.words.tell import Telling
from notchwork.recognise.words.writing import Written, read_writing


@dataclass(frozen=True, slots=True, eq=False)
class PieceRead:
    """A piece, what is written on it, and how it is drawn."""

    piece: Piece
    written: Written
    drawn: Drawn


@dataclass(slots=True, eq=False)
class WordsRead:
    """The pattern so far, without seams; its pieces as they were read; what is to be told.

    ``idents`` are the pieces' ids by those of their shapes.
    """

    pattern: Pattern
    pieces: Mapping[str, PieceRead]
    idents: Mapping[str, str]
    findings: list[Finding] = field(default_factory=list)


def read_words(seen: Seen, strokes: Sequence[Stroke] = ()) -> WordsRead:
    """The pieces of a drawing with everything that is written and drawn on them, still without seams.

    ``strokes`` are those of the whole drawing, to which the shapes' sources refer.
    """
    sizes, base = _sizes(seen)
    shifts = Shifts(sizes, base, dict(seen.rules))
    common = next((w for text in seen.texts if (w := allowance_of(text.words)) is not None), None)
    telling = Telling()
    group_counts = Counter(shape.groups[-1] for shape in _by_piece(seen, base).values() if shape.groups)
    pieces: dict[str, PieceRead] = {}
    materials: dict[str, Material] = {}
    by_ident: dict[str, dict[str | None, Shape]] = {}
    idents: dict[str, str] = {}
    for shape in whole_paragraphs(seen):
        by_ident.setdefault(shape.ident, {})[shape.size if base is not None else None] = shape
    for of_shape, shapes in by_ident.items():
        reader = _PieceReader(shapes, sizes, base, strokes, telling)
        ident = reader.named(group_counts, list(pieces), len(pieces) + 1)
        idents[of_shape] = ident
        pieces[ident], stuff = reader.read(ident, shifts, common)
        materials |= {key: value for key, value in stuff.items() if key not in materials}
    pattern = Pattern(
        version="1.0",
        title=seen.title or None,
        sizes=Sizes(tuple(sizes), base) if base is not None else None,
        grade_rules=_used(shifts.rules, [read.piece for read in pieces.values()]),
        materials=materials,
        pieces={ident: read.piece for ident, read in pieces.items()},
    )
    return WordsRead(pattern, pieces, idents, telling.findings)


def _sizes(seen: Seen) -> tuple[list[str], str | None]:
    """The sizes in order and the one that is drafted; none where all shapes hold for one size."""
    there = list(dict.fromkeys(shape.size for shape in seen.shapes if shape.size is not None))
    named = [size for size in seen.sizes if size in there]
    named += [size for size in there if size not in named]
    if not named:
        return [], None
    base = seen.base if seen.base in named else named[len(named) // 2]
    return named, base


def _by_piece(seen: Seen, base: str | None) -> dict[str, Shape]:
    found: dict[str, Shape] = {}
    for shape in seen.shapes:
        if shape.ident not in found or shape.size == base:
            found[shape.ident] = shape
    return found


class _PieceReader:
    """Reads one piece: its shapes in every size, one on another."""

    def __init__(
        self,
        shapes: Mapping[str | None, Shape],
        sizes: Sequence[str],
        base: str | None,
        strokes: Sequence[Stroke],
        telling: Telling,
    ) -> None:
        self._telling = telling
        self._sizes = sizes
        self._strokes = strokes
        order: list[str | None] = [s for s in sizes if s in shapes] or [None]
        self._base = base if base in shapes else order[0]
        flat = {size: without_dents(shapes[size]) for size in order}
        count = len(flat[self._base][0].outline.corners)
        self._left_out = [s for s in order if len(flat[s][0].outline.corners) != count]
        self._shapes = {s: shape for s, (shape, _) in flat.items() if s not in self._left_out}
        self._dents = {s: dents for s, (_, dents) in flat.items()}
        self._rims = {s: Rim(shape.outline) for s, shape in self._shapes.items()}
        self._texts = _once(text for shape in self._shapes.values() for text in shape.texts)
        plain = [text for text in self._texts if not _is_stated(text)]
        rims = [self._rims[self._base], *(rim for s, rim in self._rims.items() if s != self._base)]
        named = self._shape.named and self._stated_name is not None
        self._written = read_writing(plain, rims, sizes, named)

    @property
    def _shape(self) -> Shape:
        return self._shapes[self._base]

    def named(self, groups: Mapping[str, int], taken: Sequence[str], number: int) -> str:
        """The piece's id: as the drawing gives it, else from what is written, from its group, from its number."""
        shape, words = self._shape, self._written.name
        group = shape.groups[-1] if shape.groups else ""
        if shape.named and not is_made_up(shape.ident):
            return unique(valid(shape.ident), taken)
        if words is not None and slug(words):
            return unique(slug(words), taken)
        if group and groups[group] == 1 and not is_made_up(group) and slug(group):
            return unique(slug(group), taken)
        return unique(f"piece_{number}", taken)

    def read(
        self, ident: str, shifts: Shifts, common: float | None
    ) -> tuple[PieceRead, Mapping[str, Material]]:
        """The piece, and the materials it is cut from."""
        shape, rim = self._shape, self._rims[self._base]
        written, telling = self._written, self._telling
        names, how = edge_names(shape, rim, written.edge_names, self._strokes)
        folds = self._folds(rim)
        orders = self._orders(bool(folds))
        signs = {
            size: read_signs(s, self._dents[size], self._rims[size], names, self._texts)
            for size, s in self._shapes.items()
        }
        drawn = Drawn(ident, self._shapes, self._rims, signs, names, self._base)
        allowances, from_words = self._allowances(shape.kind == "stitch", common)
        finishes = self._finishes(drawn, how, folds)
        name = self._name(ident)
        piece = built(
            Frame(drawn, shifts),
            name,
            folds,
            allowances,
            finishes,
            orders.cut or None,
            "\n".join(written.notes) or None,
        )
        kind = next((k for t in self._texts if says_grain(t.words) and (k := grain_kind(t.words))), None)
        if kind is not None and piece.grain is None and piece.strip is None:
            piece = replace(piece, grain=kind)
        if shape.kind != "stitch" and piece.strip is None:
            piece = replace(piece, outline_is="cut_line" if shape.kind == "cut" else "unknown")
        telling.piece(
            drawn,
            piece,
            how=how,
            named_by=self._named_by(),
            stated_folds=shape.folds,
            fold_missing=orders.on_fold and not folds,
            paired=orders.paired,
            order_words=tuple(dict.fromkeys(words for _, words in written.orders)),
            allowance=(from_words, written.allowance_words) if from_words is not None else None,
            left_out=tuple(str(size) for size in self._left_out),
        )
        return PieceRead(piece, written, drawn), orders.materials

    @property
    def _stated_name(self) -> str | None:
        """What the drawing itself says that the piece is called."""
        stated = self._shape.facts.get("name")
        said = next((text.words for text in self._texts if text.meaning == "name"), None)
        return said or (str(stated) if stated is not None else None)

    def _name(self, ident: str) -> str | None:
        if self._stated_name is not None:
            return self._stated_name
        name = self._written.name
        return None if name is None or slug(name) == ident == name else name[:1].upper() + name[1:]

    def _named_by(self) -> str | None:
        shape = self._shape
        if shape.named and not is_made_up(shape.ident):
            return None
        group = shape.groups[-1] if shape.groups else ""
        return self._written.name or ("" if is_made_up(group) else group)

    def _orders(self, folded: bool) -> Orders:
        stated = [text for text in self._texts if "quantity" in text.facts]
        return orders_of(self._written.orders, stated, folded)

    def _folds(self, rim: Rim) -> frozenset[int]:
        """Edges that meanings, words or a dash-dotted line say are folds; only straight ones can be."""
        return self._shape.folds | folds_drawn(rim, self._written.folds, self._strokes)

    def _finishes(self, drawn: Drawn, how: Mapping[int, str], folds: frozenset[int]) -> Mapping[int, Finish]:
        """What words beside an edge, or the id of its path, say becomes of it; a match label says that it is sewn."""
        by_path = {k: finish_of(plain_name(drawn.edges[k])) for k, way in how.items() if way == "path"}
        said = {k: found.finish for k, found in by_path.items() if found is not None} | self._written.finishes
        sewn = {at.edge for at in self._written.labels}
        # The word beside a line inside the piece is about that line.
        line = any(inner.use == "casing" for sign in drawn.signs.values() for inner in sign.inner)
        return {
            k: finish
            for k, finish in said.items()
            if k not in folds and k not in sewn and not (line and finish.kind == "casing")
        }

    def _allowances(self, is_stitch: bool, common: float | None) -> tuple[dict[int, Sized], float | None]:
        """The width outside each edge; a width that words state holds where none is drawn."""
        found: dict[int, Sized] = {}
        said = self._written.allowance if self._written.allowance is not None else common
        used = None
        for edge in range(self._rims[self._base].count):
            drawn = {
                size: shape.allowances[edge]
                for size, shape in self._shapes.items()
                if edge < len(shape.allowances)
            }
            known = {size: round(width, 4) for size, width in drawn.items() if width is not None}
            if known and len(known) == len(self._shapes):
                found[edge] = sized(known)
            elif known:
                found[edge] = next(iter(known.values()))
            elif is_stitch and said is not None:
                found[edge], used = said, said
        return found, used


def _is_stated(text: Text) -> bool:
    """Whether a text's facts say what it is."""
    return text.meaning in ("name", "edge-name", "size-name", "legend") or bool(
        {"quantity", "edge", "kind"} & set(text.facts)
    )


def _once(texts: Iterable[Text]) -> list[Text]:
    kept: list[Text] = []
    for text in texts:
        if text not in kept:
            kept.append(text)
    return kept


def _used(
    rules: Mapping[str, Mapping[str, complex]], pieces: Sequence[Piece]
) -> dict[str, Mapping[str, complex]]:
    """The grade rules that something refers to."""
    named: set[str | None] = set()
    for piece in pieces:
        named |= {point.grade for point in piece.grainline or ()}
        for thing in (*piece.marks.values(), *piece.darts.values()):
            named.add(thing.grade if thing is not None else None)
        for dart in piece.darts.values():
            named |= {point.grade for point in (dart.apexes or ())} if dart is not None else set()
        for line in (*piece.inner.values(), *piece.cutouts.values()):
            named |= {node.grade for node in (line.line or ())} if line is not None else set()
    return {name: rule for name, rule in rules.items() if name in named}
