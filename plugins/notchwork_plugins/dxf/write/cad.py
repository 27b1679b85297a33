"""A plain drawing for cutters and general CAD programs: Release 2010, real curves, a layer for each meaning.

Every part lies where it lies on the drawing, in mm. ezdxf writes it: what a document of that release must hold is that
library's to know.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import numpy as np
from ezdxf._options import options as ezdxf_options
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from numpy.typing import NDArray

from notchwork.drawing import Dot, Drawing, Group, Meaning, Stroke, Text, line_style
from notchwork.findings import safe
from notchwork.formats import Written
from notchwork.geometry import flatten, is_straight, tangents
from notchwork_plugins.dxf.attached import parts_of
from notchwork_plugins.dxf.said import APPLICATION, Chords, Said, strings_of
from notchwork_plugins.dxf.settings import measure, one_of

Complexes = NDArray[np.complex128]
_Drawn = tuple[Any, Chords | None]
"""An entity of ezdxf, and of a polyline that stands for a curve what it says of that."""

COLOURS: Mapping[Meaning | None, int] = {
    "cut": 7,
    "stitch": 8,
    "fold": 5,
    "opened": 5,
    "notch": 3,
    "grain": 4,
}
"""The number in the common palette of a layer's lines; all others are grey. Only for telling them apart on a screen."""
_GREY = 9
_FINEST, _COARSEST = 0.001, 1.0
_HAIR = 0.005
"""mm: a curve this near to its chord is straight."""
_TURN = math.radians(1.0)
"""A curve that turns by more at a node has a corner there."""
_ALIGNED = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
_FORBIDDEN = str.maketrans(dict.fromkeys('<>/\\":;?*|=`,', "_"))
"""What a layer's name may not hold (DXF reference of Autodesk, LAYER)."""
_MOST_NAME = 120


def write_cad(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """One file. Raises NotchworkError for an option that cannot be."""
    as_splines, chord = _chosen(options)
    with _same_every_time():
        document = new("R2010", units=4)
        sheet = _Sheet(document, drawing, as_splines, chord)
        for group in drawing.groups:
            sheet.add(group)
        if drawing.attached is not None:
            strings = [string for part in parts_of(drawing.attached) for string in part]
            record = document.rootdict.add_xrecord(APPLICATION)
            record.reset([(1, string) for string in strings])
        stream = io.StringIO()
        document.write(stream)
    return Written({".cad.dxf": stream.getvalue().encode("utf-8", "replace")})


class _Sheet:
    """The model space of a document, to which groups are added one after the other."""

    def __init__(self, document: Any, drawing: Drawing, as_splines: bool, chord: float) -> None:
        self._document = document
        self._drawing = drawing
        self._space = document.modelspace()
        self._as_splines = as_splines
        self._chord = chord
        self._several = len(drawing.sizes) > 1
        self._first = True
        document.appids.add(APPLICATION)
        document.header["$MEASUREMENT"] = 1
        box = drawing.bounds
        if box is not None:
            document.header["$EXTMIN"] = (box[0].real, box[0].imag, 0.0)
            document.header["$EXTMAX"] = (box[1].real, box[1].imag, 0.0)

    def add(self, group: Group) -> None:
        """Every part of a group; the first one says what holds for the whole."""
        parts: Sequence[Stroke | Dot | Text] = (*group.strokes, *group.dots, *group.texts)
        of_group = True
        for part in parts:
            attributes = {"layer": self._layer(part)}
            for entity, chords in self._drawn(part, group.shift, attributes):
                said = Said(
                    group.name,
                    part.meaning,
                    part.facts,
                    group.shift,
                    isinstance(part, Stroke) and part.closed,
                    of_group=group.facts if of_group else {},
                    within=group.within if of_group else (),
                    title=self._drawing.title if self._first else "",
                    sizes=self._drawing.sizes if self._first else (),
                    base=self._drawing.base if self._first else None,
                    chords=chords,
                )
                entity.set_xdata(APPLICATION, [(1000, string) for string in strings_of(said)])
                of_group = self._first = False

    def _drawn(
        self, part: Stroke | Dot | Text, shift: complex, attributes: dict[str, Any]
    ) -> Iterator[_Drawn]:
        match part:
            case Dot():
                at = part.at + shift
                yield self._space.add_point((at.real, at.imag), attributes), None
            case Text():
                at = part.at + shift
                attributes |= {"rotation": part.angle, "height": part.height}
                words = safe(part.words).replace("^", "^ ")
                text = self._space.add_text(words, dxfattribs=attributes)
                yield text.set_placement((at.real, at.imag), align=_ALIGNED[part.anchor]), None
            case Stroke() if len(part.cubics):
                yield self._curve(part, shift, attributes)

    def _curve(self, stroke: Stroke, shift: complex, attributes: dict[str, Any]) -> _Drawn:
        cubics = stroke.cubics + shift
        straight = bool(is_straight(cubics, _HAIR).all())
        if straight or not self._as_splines:
            return self._polyline(cubics, stroke.closed, straight, attributes)
        if stroke.closed and abs(cubics[0, 0] - cubics[-1, 3]) > _HAIR:
            start, end = cubics[0, 0], cubics[-1, 3]
            cubics = np.concatenate([cubics, np.array([[end, end, start, start]])])
        # A run of cubics is a spline of degree 3 whose inner knots stand three times.
        poles = [*cubics[:, :3].ravel().tolist(), complex(cubics[-1, 3])]
        spline = self._space.add_spline(degree=3, dxfattribs=attributes)
        spline.control_points = [(z.real, z.imag, 0.0) for z in poles]
        spline.knots = [
            0.0,
            *(float(k) for k in range(len(cubics) + 1) for _ in range(3)),
            float(len(cubics)),
        ]
        return spline, None

    def _polyline(
        self, cubics: Complexes, closed: bool, straight: bool, attributes: dict[str, Any]
    ) -> _Drawn:
        flat = flatten(cubics, self._chord)
        corners = np.append(cubics[:, 0], cubics[-1, 3]) if straight else flat.points
        ends_where_it_starts = len(corners) > 2 and abs(corners[0] - corners[-1]) < _HAIR
        if closed and ends_where_it_starts:
            corners = corners[:-1]
        pairs = [(z.real, z.imag) for z in corners.tolist()]
        line = self._space.add_lwpolyline(pairs, close=closed, dxfattribs=attributes)
        if straight:
            return line, None
        nodes = np.flatnonzero(flat.t == 0.0)
        smooth = ~_breaks(cubics)
        smooth[0] &= closed and ends_where_it_starts
        broken = nodes[~smooth].tolist()
        if len(corners) == len(flat.points):
            # The end of a line, from which a closed one goes straight on to its start.
            nodes, broken = np.append(nodes, len(corners) - 1), [*broken, len(corners) - 1]
        return line, Chords(len(corners), tuple(nodes.tolist()), tuple(broken), self._chord)

    def _layer(self, part: Stroke | Dot | Text) -> str:
        """The name of a part's layer, which is made where there is none yet: its meaning, and its size where there are several."""
        size = part.facts.get("size")
        name: str = part.meaning or "other"
        if self._several and isinstance(size, str):
            name = f"{name} {safe(size).translate(_FORBIDDEN)}"[:_MOST_NAME].strip()
        if not self._document.layers.has_entry(name):
            style = line_style(
                part.meaning, size if isinstance(size, str) else None, self._drawing.sizes, self._drawing.base
            )
            self._document.layers.add(
                name,
                color=COLOURS.get(part.meaning, _GREY),
                linetype=self._line_type(style.dashes),
                lineweight=_weight(style.width),
            )
        return name

    def _line_type(self, dashes: Sequence[float]) -> str:
        """The name of a line type of these dashes (mm, drawn and left out by turns), which is made where there is none yet."""
        if not dashes:
            return "CONTINUOUS"
        name = "DASHES_" + "_".join(f"{dash:g}".replace(".", "-") for dash in dashes)
        if not self._document.linetypes.has_entry(name):
            signed = [dash if k % 2 == 0 else -dash for k, dash in enumerate(dashes)]
            self._document.linetypes.add(name, pattern=[sum(dashes), *signed])
        return name


def _breaks(cubics: Complexes) -> NDArray[np.bool_]:
    """Whether a run breaks where each cubic begins, as seen from the end of the one before, the last before the first."""
    rows = np.arange(len(cubics))
    leaving, arriving = (
        tangents(cubics, rows, np.zeros(len(rows))),
        tangents(cubics, rows, np.ones(len(rows))),
    )
    turned: NDArray[np.bool_] = np.abs(np.angle(leaving * np.roll(arriving, 1).conj())) > _TURN
    return turned


def _weight(width: float) -> int:
    """The nearest width of a pen, in hundredths of a mm, that DXF knows."""
    return min((0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100), key=lambda w: abs(w - width * 100))  # fmt: skip


@contextmanager
def _same_every_time() -> Iterator[None]:
    """Without the day's date and made-up numbers, so that the same drawing gives the same bytes."""
    before = ezdxf_options.write_fixed_meta_data_for_testing
    ezdxf_options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf_options.write_fixed_meta_data_for_testing = before


def _chosen(options: Mapping[str, str]) -> tuple[bool, float]:
    curves = one_of(options, "curves", ("splines", "polylines"))
    return curves != "polylines", measure(options, "chord", "0.01", _FINEST, _COARSEST)
