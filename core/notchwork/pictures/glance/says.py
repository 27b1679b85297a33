"""What the pattern at a glance shows, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.findings import listed
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.words import NAMED, cut_words, edge_words
from notchwork.pictures.lettering import short
from notchwork.sewing import Nest


def says(nest: Nest, size: int, look: Look, pieces: Sequence[Drawn]) -> str:
    """The verdict on the seams; then pieces with copies, letters with names, what is filled and where it is off, and what
    the signs stand for."""
    return " ".join((*_sentences(nest, size, look), *_marked(look, pieces)))


def _marked(look: Look, pieces: Sequence[Drawn]) -> Iterator[str]:
    """Every finding that has a sign, once, with the pieces that have it."""
    on: dict[str, dict[str, None]] = {}
    for made in pieces:
        for sign in made.signs:
            for told in sign.told:
                on.setdefault(told.says, {})[short(look.names.piece(made.piece), NAMED)] = None
    for said, named in on.items():
        yield f"Marked: on {listed(named)}. {said}"


def _sentences(nest: Nest, size: int, look: Look) -> Iterator[str]:
    names, where = (
        look.names,
        "" if nest.sizes[size] is None else f"Size {short(str(nest.sizes[size]), NAMED)}: ",
    )
    bad = [seam for seam in look.letters if seam in look.fills]
    if not look.letters:
        yield f"{where}no seam is stated."
    elif not bad:
        yield (
            f"{where}all {len(look.letters)} seams fit."
            if len(look.letters) > 1
            else f"{where}the seam fits."
        )
    else:
        yield f"{where}{len(bad)} of {len(look.letters)} seams {'does' if len(bad) == 1 else 'do'} not fit."
    for piece in nest.pieces.values():
        cut = (
            listed(cut_words(nest, piece, size)) if piece.written.cut or piece.written.use else "no cut order"
        )
        known = "" if piece.has_shape else ", known by its lengths only and not drawn"
        absent = "" if piece.present[size] or not piece.has_shape else ", not in this size"
        fold = f", on the fold at {listed(map(edge_words, piece.folds))}" if piece.folds else ""
        yield f"{short(piece.name, NAMED)}: {cut}{fold}{known}{absent}."
    for seam, letter in look.letters.items():
        on = dict.fromkeys(
            short(names.piece(piece), NAMED) for side in nest.sides[seam] for piece in side.pieces
        )
        yield f"{letter} is {short(names.seam(seam), NAMED)}, on {listed(on)}."
    if bad:
        yield f"Filled: {listed(look.letters[seam] for seam in bad)}."
    for piece_id, offs in look.off.items():
        for off in offs:
            if off.words:
                yield f"{look.letters[off.seam]} on {short(names.piece(piece_id), NAMED)}, {edge_words(off.line)}: {off.words}."
