"""What is bought by length or count, and the strips that are cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.checks import Graded
from notchwork.findings import Place, plain_name
from notchwork.model import Notion
from notchwork.report.page.amounts import by_size, count, joined, length
from notchwork.report.page.markup import Section, el, figures, link, sign, table, wide, words
from notchwork.report.page.subject import Subject
from notchwork.report.told import speaks
from notchwork.sewing import GradedPiece, Nest

_GRAINS = {"bias": "on the bias", "cross": "across the grain", "lengthwise": "along the grain"}
_HEADS = ("What", "How many", "Width", "Length", "For")


def notions(subject: Subject, nest: Nest) -> Section:
    """Zips, elastics, tapes and bindings with their widths and lengths in every size, and what is wrong with them."""
    rows = [
        *(_notion(subject, nest, ident, notion) for ident, notion in subject.pattern.notions.items()),
        *(_strip(subject, nest, piece) for piece in nest.pieces.values() if piece.is_strip),
    ]
    body = wide(table(_HEADS, rows, len(_HEADS)), "What to buy and cut by length") if rows else ""
    return Section("notions", "Notions and strips", body)


def _notion(subject: Subject, nest: Nest, ident: str, notion: Notion) -> Iterator[str]:
    def shown(mm: float) -> str:
        return length(mm, subject.names.unit)

    kind = joined((notion.type or "", notion.kind if notion.name else ""))
    about = (g for g in subject.verdict.findings if any(place.notion == ident for place in g.places))
    small = f" <small>{words(kind)}</small>" if kind else ""
    yield subject.notion(ident) + small + _told(subject, about)
    yield words(by_size(notion.count, nest.sizes, count))
    yield figures(by_size(notion.width, nest.sizes, shown))
    yield figures(by_size(notion.length, nest.sizes, shown) or "by the metre")
    yield subject.named(_served(subject, notion.serves))


def _strip(subject: Subject, nest: Nest, piece: GradedPiece) -> Iterator[str]:
    strip = piece.written.strip
    assert strip is not None

    def shown(mm: float) -> str:
        return length(mm, subject.names.unit)

    grain = _GRAINS.get(strip.grain or piece.written.grain or "", "")
    about = (graded for graded in subject.about(piece.id) if graded.rule.family == "cutting")
    small = f" <small>{words(joined(('strip', grain)))}</small>"
    yield subject.named(piece.name) + small + _told(subject, about)
    yield words(joined(by_size(cut.count, nest.sizes, count) for cut in piece.written.cut or ()))
    yield figures(by_size(strip.width, nest.sizes, shown))
    yield figures(by_size(strip.length, nest.sizes, shown))
    yield subject.named(joined(_materials(subject, piece)))


def _told(subject: Subject, about: Iterable[Graded]) -> str:
    """What is to be looked at, each leading to where it is told: below the name, so that it is seen on a narrow screen too."""
    return "".join(
        el("div", sign(graded.severity), " ", link(subject.ident_of(graded), words(graded.rule.title)))
        for graded in about
        if speaks(graded)
    )


def _served(subject: Subject, serves: str | None) -> str:
    """The opening, edge or inner line that a notion serves."""
    if serves is None:
        return ""
    piece, dot, line = serves.partition(".")
    if dot:
        return f"{subject.names.piece(piece)}, {plain_name(line)}"
    return subject.names.of(Place(opening=piece))


def _materials(subject: Subject, piece: GradedPiece) -> Iterator[str]:
    for cut in piece.written.cut or ():
        yield from (subject.names.of(Place(material=ident)) for ident in cut.materials)
