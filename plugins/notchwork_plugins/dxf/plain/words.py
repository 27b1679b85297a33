"""TEXT, ATTRIB and MTEXT as lines of words, each where it begins, how high it is and how it is turned."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator

from notchwork.drawing import Text
from notchwork.drawing.drawing import Anchor
from notchwork.geometry.affine import Affine
from notchwork_plugins.dxf.file import Entity
from notchwork_plugins.dxf.plain.mtext import lines_of
from notchwork_plugins.dxf.plain.planes import plane
from notchwork_plugins.dxf.plain.signs import signs

_ANCHORS: tuple[Anchor, ...] = ("start", "middle", "end")
_ALIGNED, _IN_THE_MIDDLE, _FITTED = 3, 4, 5
_BELOW, _HALFWAY, _ABOVE = 1, 2, 3
_LINE_STEP = 5 / 3
"""Heights of type from one line of an MTEXT to the next, times its own factor (code 44)."""
_DESCENDER = 0.25
_USUAL_HEIGHT = 2.5


def texts(entity: Entity, place: Affine) -> Iterator[Text]:
    """The lines of a text; ``place`` maps the coordinates of what holds it to mm."""
    yield from _paragraph(entity, place) if entity.kind == "MTEXT" else _line(entity, place)


def _line(entity: Entity, place: Affine) -> Iterator[Text]:
    words = " ".join(signs(entity.text(1)).split())
    if not words:
        return
    across, up = entity.flag(72), entity.flag(74 if entity.kind == "ATTRIB" else 73)
    at, other = entity.point(10), entity.point(11)
    height = abs(entity.number(40, _USUAL_HEIGHT))
    angle = math.radians(entity.number(50))
    anchor: Anchor = "start"
    if across in (_ALIGNED, _FITTED):
        if 11 in entity.codes and other != at:
            angle = cmath.phase(other - at)
    elif (across or up) and 11 in entity.codes:
        at = other
        anchor = "middle" if across == _IN_THE_MIDDLE else _ANCHORS[min(across, 2)]
        if across == _IN_THE_MIDDLE:
            up = _HALFWAY
        lower = {_BELOW: -_DESCENDER, _HALFWAY: 0.5, _ABOVE: 1.0}.get(up, 0.0)
        at -= 1j * cmath.rect(1.0, angle) * lower * height
    own = place.after(plane(entity))
    yield _placed(own, at, angle, words, height, anchor)


def _paragraph(entity: Entity, place: Affine) -> Iterator[Text]:
    height = abs(entity.number(40, _USUAL_HEIGHT)) or _USUAL_HEIGHT
    lines = lines_of("".join([*entity.texts(3), entity.text(1)]))
    way = entity.point(11) if 11 in entity.codes else 0j
    if way:
        angle, own = cmath.phase(way), place
        at = entity.point()
    else:
        # The angle is counted in the text's own plane, its place in that of what holds it.
        turned = plane(entity).direction(cmath.rect(1.0, math.radians(entity.number(50))))
        angle, own = cmath.phase(turned) if turned else 0.0, place
        at = entity.point()
    attachment = entity.flag(71, 1)
    row, column = divmod(min(max(attachment, 1), 9) - 1, 3)
    step = _LINE_STEP * height * (entity.number(44, 1.0) or 1.0)
    tall = height + step * (len(lines) - 1)
    first = (-height, tall / 2 - height, tall - height)[row]
    down = -1j * cmath.rect(1.0, angle)
    for number, words in enumerate(lines):
        if words:
            yield _placed(own, at + down * (number * step - first), angle, words, height, _ANCHORS[column])


def _placed(place: Affine, at: complex, angle: float, words: str, height: float, anchor: Anchor) -> Text:
    along = place.direction(cmath.rect(1.0, angle))
    # What is squeezed keeps the area that it takes.
    high = place.size**2 / abs(along) if along else 0.0
    return Text(place(at), words, height * high, None, anchor, math.degrees(cmath.phase(along)))
