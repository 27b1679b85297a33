"""Plain CAD drawings for tests, made with ezdxf, and read with the program's own reader."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from typing import Any

import ezdxf
import numpy as np
from ezdxf.document import Drawing as Document
from ezdxf.lldxf.tagwriter import TagWriter
from numpy.typing import NDArray

from notchwork.drawing import Drawing
from notchwork.findings import Severity, worded
from notchwork.formats import Read, Source
from notchwork_plugins.dxf.file import opened
from notchwork_plugins.dxf.plain.read import read as read_plain

Complexes = NDArray[np.complex128]
LEVEL = (0.0, 0.0, 1.0)
FACING_AWAY = (0.0, 0.0, -1.0)


def new(version: str = "R2010", units: int = 4, setup: bool = False) -> Document:
    """An empty drawing; ``units`` as for $INSUNITS, 4 for mm; ``setup``: with the usual line types and styles."""
    document = ezdxf.new(version, setup=setup)
    document.header["$INSUNITS"] = units
    return document


def as_bytes(document: Document) -> bytes:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


def alone(entity: Any) -> bytes:
    """A file of one entity and nothing else."""
    stream = io.StringIO()
    entity.export_dxf(TagWriter(stream, entity.doc.dxfversion))
    return f"  0\nSECTION\n  2\nENTITIES\n{stream.getvalue()}  0\nENDSEC\n  0\nEOF\n".encode()


def read(data: Document | bytes, name: str = "drawing.dxf", **options: str) -> Read:
    source = Source(name, data if isinstance(data, bytes) else as_bytes(data))
    return read_plain(opened(source), source, options)


def drawing(data: Document | bytes, **options: str) -> Drawing:
    found = read(data, **options).drawing
    assert found is not None
    return found


def strokes(found: Drawing) -> list[Complexes]:
    return [stroke.cubics for group in found.groups for stroke in group.strokes]


def dots(found: Drawing) -> list[complex]:
    return [dot.at for group in found.groups for dot in group.dots]


def told(found: Read) -> list[tuple[str, str]]:
    """Rule and words of everything that is said beyond the scale."""
    return [
        (finding.rule.id, worded(finding.text, finding.values))
        for finding in found.findings
        if finding.rule.id not in ("dxf/scale", "dxf/encoding")
    ]


def beyond_info(found: Read) -> list[str]:
    return [finding.rule.id for finding in found.findings if finding.rule.grade is not Severity.INFO]


def seen_from_above(points: Iterable[Any]) -> Complexes:
    """ezdxf's points as complex numbers."""
    return np.array([complex(point.x, point.y) for point in points])


def flat_entities(entities: Iterable[Any], depth: int = 0) -> Iterator[Any]:
    """Entities with every INSERT exploded by ezdxf."""
    for entity in entities:
        if entity.dxftype() == "INSERT" and depth < 16:
            for one in entity.multi_insert() if entity.mcount > 1 else [entity]:
                yield from flat_entities(one.virtual_entities(), depth + 1)
        else:
            yield entity
