"""A walk through a drawing in the order in which it is painted: what shows, where it lies, and what it lies in.

Source: SVG 2, chapter 5. A stack instead of recursion: how deep a drawing is nested is its own choice.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np

from notchwork.findings import Notes
from notchwork.geometry.affine import IDENTITY, Affine, translation
from notchwork_plugins.svg.ink import Ink, Mark
from notchwork_plugins.svg.lengths import Frame, length
from notchwork_plugins.svg.numbers import Malformed
from notchwork_plugins.svg.paths import Paths
from notchwork_plugins.svg.reuse import Dead, Reuse
from notchwork_plugins.svg.rules import (
    BAD_VALUE,
    BROKEN_PATH,
    CLIPPED,
    DEAD_LINK,
    HIDDEN,
    NOT_READ,
    OUT_OF_BOUNDS,
)
from notchwork_plugins.svg.said import GROUND, facts_of, origin_of, said_of
from notchwork_plugins.svg.shapes import SHAPES, polyline
from notchwork_plugins.svg.style import Style, Styles
from notchwork_plugins.svg.transforms import about_origin, transform
from notchwork_plugins.svg.tree import MOST_ELEMENTS, children, name_of, svg_tag, thing, too_large
from notchwork_plugins.svg.viewports import Box, aspect, fitted, view_box
from notchwork_plugins.svg.words import TEXTS, Words

_POINTS = {"polyline": False, "polygon": True}
_DRAWN = frozenset(("path", *SHAPES, *_POINTS))
_GROUPS = frozenset(("g", "svg", "symbol"))
_HOLDERS = _GROUPS | {"a", "switch"}
_PICTURES = frozenset(("image", "foreignObject", "video", "iframe", "canvas"))
_USED = _HOLDERS | _DRAWN | TEXTS | {"use"}
_SHOWN = (_USED | _PICTURES) - {"symbol"}

_FARTHEST = 1e12
"""Growth or shift (mm) beyond which the arithmetic itself would suffer; far beyond anything drawn."""

MOST_NUMBERS = 3_000_000
"""As many numbers may be drawn, counted again where a part is used again; some 25 MB of paths."""

_LANGUAGE = "en"


@dataclass(frozen=True, slots=True)
class Scope:
    """What holds for the content of an element: the map to mm (y upward), the style, the viewport, its group, and the
    ``use`` elements through which it was met."""

    place: Affine
    style: Style
    frame: Frame
    group: int
    uses: tuple[Any, ...] = ()


class Walk:
    """One walk; what it finds goes to ``ink`` and ``notes``."""

    def __init__(self, name: str, reuse: Reuse, styles: Styles, ink: Ink, notes: Notes) -> None:
        self._name = name
        self._reuse = reuse
        self._styles = styles
        self._ink = ink
        self._notes = notes
        self._words = Words(styles, self._begin_of)

    def through(self, root: Any, scope: Scope) -> None:
        """Everything in the root. Raises Unreadable where it is more than can be read."""
        style = self._entered(root, "svg", scope)
        if style is None:
            return
        stack: list[tuple[Any, Scope]] = [(child, style) for child in reversed(list(children(root)))]
        visited = 0
        while stack:
            element, scope = stack.pop()
            visited += 1
            if visited > MOST_ELEMENTS or self._ink.size > MOST_NUMBERS or self._reuse.is_exhausted:
                raise too_large(self._name)
            stack += self._visit(element, scope)

    def _visit(self, element: Any, scope: Scope) -> list[tuple[Any, Scope]]:
        """Draws an element, or gives what it holds, the last first."""
        tag = svg_tag(element)
        if tag in _PICTURES:
            self._notes.add(
                NOT_READ, "Pictures and pages of other kinds hold no lines: {things}.", "", thing(element)
            )
            return []
        if tag not in _USED or tag == "symbol":
            return []
        inner = self._entered(element, tag, scope)
        if inner is None:
            return []
        if tag == "use":
            return self._use(element, inner)
        if tag == "svg":
            inner = self._viewport(element, inner, element.get("width"), element.get("height"))
            return [] if inner is None else self._held(element, inner)
        if tag in _HOLDERS:
            return self._held(element, inner)
        if not inner.style.visible and tag not in TEXTS:
            self._hide(element, scope)
        elif inner.place.flattens:
            self._notes.add(
                OUT_OF_BOUNDS, "Flattened to nothing by a transform: {things}.", "", thing(element)
            )
        elif tag in TEXTS:
            said = said_of(element)
            for text in self._words.texts(element, inner.style, inner.frame, inner.place, said):
                self._ink.write(text, inner.group)
        else:
            self._draw(element, tag, inner)
        return []

    def _entered(self, element: Any, tag: str, scope: Scope) -> Scope | None:
        """The scope of an element's content, before any viewport of its own; None where it does not show."""
        declared = self._styles.declared(element, tag)
        if declared.get("display") == "none":
            self._hide(element, scope)
            return None
        style = self._styles.derived(scope.style, declared, scope.frame)
        if declared.get("clip-path", "none") != "none" or declared.get("mask", "none") != "none":
            self._notes.add(CLIPPED, "Clipped or masked, and read whole: {things}.", "", thing(element))
        place = scope.place
        if "transform" in declared:
            own = self._transform(
                element, declared["transform"], declared.get("transform-origin"), style, scope.frame
            )
            place = place.after(own)
            if not (place.stretch < _FARTHEST and abs(place.shift) < _FARTHEST):
                self._notes.add(
                    OUT_OF_BOUNDS, "Moved beyond all bounds by transforms: {things}.", "", thing(element)
                )
                return None
        group = scope.group
        if tag in _GROUPS and element.getparent() is not None:
            group = self._group(element, place, group)
        if place is scope.place and style is scope.style and group == scope.group:
            return scope
        return Scope(place, style, scope.frame, group, scope.uses)

    def _group(self, element: Any, place: Affine, outer: int) -> int:
        name, origin = element.get("data-group"), origin_of(element)
        if name is not None and origin is not None and place.stretch < _FARTHEST:
            return self._ink.open_whole(name, self._ink.around(outer), facts_of(element), place(origin))
        if self._ink.is_whole(outer):
            return outer
        return self._ink.open_group(name_of(element), self._ink.around(outer))

    def _held(self, element: Any, scope: Scope) -> list[tuple[Any, Scope]]:
        held = list(children(element))
        if svg_tag(element) == "switch":
            held = [child for child in held if svg_tag(child) in _SHOWN and _chosen(child)][:1]
        return [(child, scope) for child in reversed(held)]

    def _use(self, element: Any, scope: Scope) -> list[tuple[Any, Scope]]:
        uses = (*scope.uses, element)
        try:
            target = self._reuse.target(uses)
            tag = svg_tag(target)
            if tag not in _USED:
                raise Dead("What is used here is nothing that could be drawn: {things}.")
        except Dead as dead:
            hint = "Open the drawing in its editor, unlink the copy, and save it again."
            self._notes.add(DEAD_LINK, dead.why, hint, thing(element))
            return []
        shift = complex(
            self._length(scope, element, "x", "x") or 0.0, self._length(scope, element, "y", "y") or 0.0
        )
        scope = replace(scope, place=scope.place.after(translation(shift)), uses=uses)
        if tag not in ("svg", "symbol"):
            return [(target, scope)]
        inner = self._entered(target, tag, scope)
        if inner is None:
            return []
        wide = element.get("width", target.get("width"))
        framed = self._viewport(target, inner, wide, element.get("height", target.get("height")))
        return [] if framed is None else self._held(target, framed)

    def _viewport(self, element: Any, scope: Scope, wide: str | None, tall: str | None) -> Scope | None:
        """The scope inside an inner viewport; None where it has no extent."""
        size = self._extent(element, scope, wide, tall)
        corner = 0j
        if svg_tag(element) == "svg":
            x, y = self._length(scope, element, "x", "x"), self._length(scope, element, "y", "y")
            corner = complex(x or 0.0, y or 0.0)
        box = None
        if (text := element.get("viewBox")) is not None:
            try:
                box = view_box(text)
            except Malformed as fault:
                self._bad(element, "viewBox", fault.why)
        if size is None:
            size = box.size if box is not None else None
        if size is not None and (size.real <= 0.0 or size.imag <= 0.0):
            return None
        own = translation(corner)
        if box is not None and size is not None:
            own = fitted(box, Box(corner, size), aspect(element.get("preserveAspectRatio")))
            size = box.size
        return replace(scope, place=scope.place.after(own), frame=replace(scope.frame, size=size))

    def _extent(self, element: Any, scope: Scope, wide: str | None, tall: str | None) -> complex | None:
        """Width and height in the units around; all of what is around where they are not stated."""
        x = self._value(element, "width", wide or "100%", "x", scope)
        y = self._value(element, "height", tall or "100%", "y", scope)
        return None if x is None or y is None else complex(x, y)

    def _draw(self, element: Any, tag: str, scope: Scope) -> None:
        said = said_of(element)
        if said.meaning is None and element.get("data-meaning") == GROUND:
            return
        mark = Mark(scope.place, scope.group, said, scope.style.look(scope.place.size), element)
        fault = None
        if tag == "path":
            fault = self._ink.path(element.get("d") or "", mark)
        elif tag in _POINTS:
            shape, fault = polyline(element.get("points") or "", _POINTS[tag])
            self._ink.shape(shape, mark)
        else:
            shape = SHAPES[tag](partial(self._length, scope, element), scope.place.stretch)
            # A circle that means something stands for a point.
            self._ink.shape(shape.middle if tag == "circle" and said.meaning is not None else shape, mark)
        if fault is not None:
            self._notes.add(
                BROKEN_PATH,
                "{things} is broken after {offset} characters: {why}. It was read as far as that.",
                "Look at it in its editor; draw the missing part again and save.",
                thing(element),
                {"offset": str(fault.offset), "why": fault.why},
            )

    def _length(self, scope: Scope, element: Any, name: str, along: str) -> float | None:
        text = element.get(name)
        return None if text is None else self._value(element, name, text, along, scope)

    def _value(self, element: Any, name: str, text: str, along: str, scope: Scope) -> float | None:
        value = length(text, scope.frame, along, scope.style.font_size)
        if value is None and text.strip() != "auto":
            self._bad(element, name, f"“{text[:40]}” is no length")
        return value

    def _transform(self, element: Any, text: str, origin: str | None, style: Style, frame: Frame) -> Affine:
        try:
            own = transform(text)
            return own if origin is None else about_origin(own, origin, frame, style.font_size)
        except Malformed as fault:
            self._bad(element, "transform", fault.why)
            return IDENTITY

    def _bad(self, element: Any, name: str, why: str) -> None:
        self._notes.add(
            BAD_VALUE,
            "{things}: its {name} means nothing ({why}) and was left out.",
            "Look whether everything lies where it should.",
            thing(element),
            {"name": name, "why": why},
        )

    def _hide(self, element: Any, scope: Scope) -> None:
        self._notes.add(
            HIDDEN,
            "Hidden in the drawing and left out: {things}.",
            "If it belongs to the pattern, show it in the editor and save again.",
            thing(element),
        )

    def _begin_of(self, ident: str) -> tuple[complex, complex] | None:
        element = self._reuse.ids.get(ident)
        if element is None or svg_tag(element) != "path":
            return None
        path = Paths()
        path.add(element.get("d") or "", 1.0)
        points = path.cubics()[0][:1].ravel()
        ahead = points[points != points[:1]]
        if not len(ahead) or not np.isfinite(points).all():
            return None
        forth = complex(ahead[0] - points[0])
        return complex(points[0]), forth / abs(forth)


def _chosen(element: Any) -> bool:
    """Whether a switch may take this: nothing that needs an extension, no other language."""
    if element.get("requiredExtensions") is not None:
        return False
    languages = element.get("systemLanguage")
    if languages is None:
        return True
    return any(word.strip().lower().partition("-")[0] == _LANGUAGE for word in languages.split(","))
