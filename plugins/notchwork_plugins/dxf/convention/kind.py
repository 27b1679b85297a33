"""Whether a file is one of the convention, or would be one but for its layers."""

from __future__ import annotations

from notchwork.findings import Finding, Place, safe
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.keys import keyed
from notchwork_plugins.dxf.convention.sheet import DRAWN
from notchwork_plugins.dxf.convention.told import NEARLY
from notchwork_plugins.dxf.file.entity import Block, File


def is_convention(file: File) -> bool:
    """Whether a file is one of the convention: a block of it holds a boundary on layer 1, and there are style or piece texts."""
    blocks = blocks_of(file)
    bounded = any(
        entity.kind in DRAWN and layers.number_of(entity.layer) == layers.BOUNDARY
        for block in blocks
        for entity in block.entities
    )
    texts = (
        e for e in (*file.entities, *(e for block in blocks for e in block.entities)) if e.kind == "TEXT"
    )
    return bounded and any(keyed(entity.text(1)) is not None for entity in texts)


def nearly(file: File) -> list[Finding]:
    """What is to be said of a file that has the piece texts of the convention, and no boundary that would make it one."""
    for entity in (*file.entities, *(e for block in blocks_of(file) for e in block.entities)):
        pair = keyed(entity.text(1)) if entity.kind == "TEXT" else None
        if pair is not None and pair[0] == "piece" and pair[1]:
            return [
                Finding(
                    NEARLY,
                    Place(),
                    "“{words}” (line {line}) is a text of the sewn-products convention, but no block has an outline on layer 1: the file "
                    "is read as a plain drawing.",
                    "Put the outlines of pieces on layer 1 of their blocks; if it is a plain drawing, say so (kind=plain).",
                    {"words": safe(entity.text(1)[:60]), "line": str(entity.line)},
                )
            ]
    return []


def blocks_of(file: File) -> list[Block]:
    """All blocks but those that stand for whole layouts."""
    return [
        block
        for block in file.blocks.values()
        if not block.name.startswith(("*", "$MODEL", "$PAPER", "$Model", "$Paper"))
    ]
