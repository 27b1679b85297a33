"""Patterns written as DXF and read back by ezdxf, the reference, for tests."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import ezdxf
import numpy as np
from ezdxf.lldxf.encoding import decode_dxf_unicode
from numpy.typing import NDArray
from patterns import nest_of

from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing
from notchwork.formats import Written
from notchwork.sewing import Nest
from notchwork_plugins.dxf.write.convention import write_bare, write_valid

Complexes = NDArray[np.complex128]
Document = dict[str, Any]


@dataclass
class Trip:
    """A pattern as nest, as what was written, and as what ezdxf reads of it."""

    nest: Nest
    written: Written
    read: Any

    @property
    def blocks(self) -> dict[str, Any]:
        """The blocks of the file by name, without those that ezdxf adds."""
        return {block.name: block for block in self.read.blocks if not block.name.startswith("*")}

    def lines(self, block: str, layer: int) -> list[Complexes]:
        """The vertices of every polyline of a block on a layer, as x + iy."""
        found = self.blocks[block].query(f'POLYLINE[layer=="{layer}"]')
        return [
            np.array([complex(v.dxf.location.x, v.dxf.location.y) for v in line.vertices]) for line in found
        ]

    def points(self, block: str, layer: int) -> Complexes:
        found = self.blocks[block].query(f'POINT[layer=="{layer}"]')
        return np.array([complex(p.dxf.location.x, p.dxf.location.y) for p in found], dtype=complex)

    def texts(self, block: str, layer: int) -> list[str]:
        return [
            decode_dxf_unicode(text.dxf.text) for text in self.blocks[block].query(f'TEXT[layer=="{layer}"]')
        ]


def as_read(data: bytes) -> Any:
    return ezdxf.read(io.StringIO(data.decode("ascii"), newline=None))


def trip(
    document: Document,
    options: Mapping[str, str] | None = None,
    drawing: Options | None = None,
    bare: bool = False,
) -> Trip:
    nest = nest_of(document)
    return trip_of(nest, draw_pattern(nest, drawing), options, bare)


def trip_of(
    nest: Nest, drawing: Drawing, options: Mapping[str, str] | None = None, bare: bool = False
) -> Trip:
    written = (write_bare if bare else write_valid)(drawing, options or {})
    return Trip(nest, written, as_read(written.files[".bare.dxf" if bare else ".dxf"]))
