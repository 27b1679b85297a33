"""All signs of one piece in one size, in the order in which they are told apart."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Stroke, Text
from notchwork.recognise.shape import Shape
from notchwork.recognise.words.arrows import grain_arrow
from notchwork.recognise.words.dents import Dent
from notchwork.recognise.words.inside import marks_of, pleats_of, rest_of
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.signs import Signs, Wedge
from notchwork.recognise.words.sketch import Sketch
from notchwork.recognise.words.stated import stated_signs
from notchwork.recognise.words.ticks import grouped, notches_of
from notchwork.recognise.words.wedges import darts_of_strokes


def read_signs(
    shape: Shape, dents: Sequence[Dent], rim: Rim, edges: Sequence[str], texts: Sequence[Text]
) -> Signs:
    """What the strokes and points of a shape are; ``dents`` were drawn into its outline, ``edges`` are its edges' names."""
    # A V that reaches the outline cuts a face off, so its legs may come as common stretches of two faces.
    open_ended = [line for line in shape.inner if line.use is None and not line.facts]
    strokes = [*shape.strokes, *(Stroke(line.cubics, closed=line.closed) for line in open_ended)]
    sketch = Sketch(strokes, rim)
    signs = stated_signs(strokes, shape.dots, rim, edges, sketch.used)
    nicks = _from_dents(dents, rim, signs)
    if signs.grain is None:
        arrow = grain_arrow(sketch, texts)
        if arrow is not None:
            signs.grain = (arrow.start, arrow.stop)
            sketch.used |= arrow.strokes
    darts, small = darts_of_strokes(sketch)
    signs.wedges += darts
    signs.nicks += notches_of(sketch, shape.allowances)
    signs.nicks += grouped([*nicks, *small])
    signs.pleats += pleats_of(sketch, texts)
    signs.marks += marks_of(sketch, [dot for dot in shape.dots if dot.meaning is None])
    inner, cutouts = rest_of(sketch, texts)
    signs.inner = [*(line for line in shape.inner if line not in open_ended), *inner]
    signs.cutouts = [*shape.cutouts, *cutouts]
    # A fold that runs on through a hem belongs to the cut line.
    left = (strokes[k] for k in sketch.left())
    signs.unread = [stroke for stroke in left if stroke.meaning not in ("fold", "opened", "cut")]
    return signs


def _from_dents(dents: Sequence[Dent], rim: Rim, signs: Signs) -> list[tuple[int, float]]:
    """Enter the darts that were drawn into the outline; the nicks as (edge, arc position)."""
    nicks: list[tuple[int, float]] = []
    for dent in dents:
        edge = int(rim.edge_of_row[dent.row])
        begun = float(rim.run_up[dent.row] - rim.run_up[rim.starts[edge]])
        ended = begun + float(rim.arc[dent.row])
        if dent.is_dart:
            signs.wedges.append(Wedge(edge, (begun, ended), np.asarray(dent.legs)))
        else:
            nicks.append((edge, (begun + ended) / 2))
    return nicks
