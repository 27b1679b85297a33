"""The ``transform`` of an element, as an attribute or in its style, and the origin it turns about.

Source: SVG 1.1, 7.6; CSS Transforms 1, chapters 8 and 13.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping

from notchwork.geometry.affine import IDENTITY, Affine, matrix, rotation, scaling, translation
from notchwork_plugins.svg.lengths import Frame, length
from notchwork_plugins.svg.numbers import NUMBER, SPACE, Malformed, all_numbers

_LONGEST = 10_000
_FUNCTION = re.compile(rf"{SPACE},?{SPACE}([A-Za-z]+){SPACE}\(([^()]*)\)")
_UNIT = re.compile(rf"({NUMBER})(px|deg)")


def _rotate(a: float, x: float = 0.0, y: float = 0.0) -> Affine:
    about = complex(x, y)
    turned = rotation(math.radians(math.fmod(a, 360.0)))
    return translation(about).after(turned).after(translation(-about))


def _tangent(degrees: float) -> float:
    return math.tan(math.radians(math.fmod(degrees, 180.0)))


_FUNCTIONS: Mapping[str, tuple[Callable[..., Affine], tuple[int, ...]]] = {
    "matrix": (matrix, (6,)),
    "translate": (lambda x, y=0.0: translation(complex(x, y)), (1, 2)),
    "translateX": (lambda x: translation(complex(x, 0.0)), (1,)),
    "translateY": (lambda y: translation(complex(0.0, y)), (1,)),
    "scale": (lambda x, y=None: scaling(x, x if y is None else y), (1, 2)),
    "scaleX": (lambda x: scaling(x, 1.0), (1,)),
    "scaleY": (lambda y: scaling(1.0, y), (1,)),
    "rotate": (_rotate, (1, 3)),
    "skewX": (lambda a: matrix(1.0, 0.0, _tangent(a), 1.0, 0.0, 0.0), (1,)),
    "skewY": (lambda a: matrix(1.0, _tangent(a), 0.0, 1.0, 0.0, 0.0), (1,)),
}


def transform(text: str) -> Affine:
    """The map of a list of transforms; the last is done first. Raises Malformed."""
    if len(text) > _LONGEST:
        raise Malformed("it is far too long", _LONGEST)
    result = IDENTITY
    at = 0
    for found in _FUNCTION.finditer(text):
        if found.start() != at:
            break
        at = found.end()
        function, arities = _FUNCTIONS.get(found[1], (None, ()))
        if function is None:
            raise Malformed(f"“{found[1]}” is no transform", found.start(1))
        numbers = all_numbers(_UNIT.sub(r"\1", found[2]))
        if len(numbers) not in arities:
            raise Malformed(f"{found[1]} does not take {len(numbers)} numbers", found.start(2))
        result = result.after(function(*numbers))
    if text[at:].strip() not in ("", "none"):
        raise Malformed(f"“{text[at : at + 16].strip()}” is no transform", at)
    return result


_ACROSS = {"left": 0.0, "center": 0.5, "right": 1.0}
_DOWN = {"top": 0.0, "center": 0.5, "bottom": 1.0}


def about_origin(turned: Affine, origin: str, frame: Frame, font_size: float) -> Affine:
    """A transform about its ``transform-origin``, measured in the viewport. Raises Malformed."""
    x, y = [*origin.split(), "center", "center"][:2]
    if x in ("top", "bottom") or y in ("left", "right"):
        x, y = y, x
    about = complex(_place(x, _ACROSS, "x", frame, font_size), _place(y, _DOWN, "y", frame, font_size))
    return translation(about).after(turned).after(translation(-about))


def _place(word: str, shares: Mapping[str, float], along: str, frame: Frame, font_size: float) -> float:
    share = shares.get(word)
    value = length(word if share is None else f"{100 * share}%", frame, along, font_size)
    if value is None:
        raise Malformed(f"“{word}” is no place to turn about", 0)
    return value
