"""Cut orders in the words that stand on a piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.draw.places import facts_of_size
from notchwork.draw.stating import materials_statement
from notchwork.drawing import Fact, Facts
from notchwork.findings import plain_name
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Nest


def material_name(nest: Nest, ident: str) -> str:
    """A material's name as its maker wrote it, else its id in plain words."""
    material = nest.pattern.materials.get(ident)
    return material.name if material is not None and material.name else plain_name(ident)


def cut_orders(
    nest: Nest, graded: GradedPiece, sizes: Sequence[int], opened: bool, states: bool
) -> Iterator[tuple[str, Facts]]:
    """Each cut order in words, one for every size where the number of copies is not the same in all. It says in its facts what
    its materials are beside their names, where ``states``."""
    for cut in graded.written.cut or ():
        stuff = [material_name(nest, material) for material in cut.materials]
        how = ", on the fold" if graded.folds and not opened else ", in pairs" if cut.mirrored else ""
        other = ", turned over" if cut.hand == "mirrored" else ""
        facts: dict[Fact, str | float] = {}
        if cut.materials:
            facts["material"] = ".".join(cut.materials)
        if cut.mirrored:
            facts["kind"] = "mirrored"
        if cut.hand is not None:
            facts["use"] = "turned"
        if states and (said := materials_statement(nest, cut.materials)):
            facts["states"] = said
        counts = {size: in_size(cut.count, nest.sizes[size]) for size in sizes}
        alike = len(set(counts.values())) == 1
        for size in sizes[:1] if alike else sorted(sizes):
            words = f"{counts[size]:g} × {' with '.join(stuff) or 'cut'}{how}{other}"
            facts_here: Facts = {**facts, "quantity": counts[size]}
            if alike:
                yield words, facts_here
            else:
                yield f"{nest.sizes[size]}: {words}", {**facts_here, **facts_of_size(nest, size)}
