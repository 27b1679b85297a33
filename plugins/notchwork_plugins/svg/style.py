"""What an element looks like: properties declared on it, by style sheets, and taken over from what it lies in.

Source: SVG 2, chapters 6 (which declaration wins) and 13 (painting); CSS 2.2, 6.4.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from notchwork.drawing import Look
from notchwork.drawing.drawing import Anchor
from notchwork_plugins.svg.colours import colour
from notchwork_plugins.svg.css import Declared, Sheet, declarations
from notchwork_plugins.svg.lengths import Frame, length
from notchwork_plugins.svg.numbers import Malformed, leading_numbers

_INHERITED = frozenset(
    (
        "fill", "fill-opacity", "stroke", "stroke-opacity", "stroke-width", "stroke-dasharray", "color", "visibility",
        "font", "font-size", "text-anchor", "writing-mode",
    )
)  # fmt: skip
_OWN = frozenset(("display", "clip-path", "mask", "transform", "transform-origin"))
PROPERTIES = _INHERITED | _OWN

_MOST_DASHES = 100
_ANCHORS = ("start", "middle", "end")
_SIZES = {
    "xx-small": 9.0, "x-small": 10.0, "small": 13.0, "medium": 16.0, "large": 18.0, "x-large": 24.0, "xx-large": 32.0,
}  # fmt: skip
"""Font sizes in px as browsers have them; CSS leaves them open."""


@dataclass(frozen=True, slots=True, eq=False)
class Style:
    """The properties that an element's content takes over, in user units."""

    visible: bool = True
    colour: str | None = "#000000"
    line: str | None = None
    filling: str | None = "#000000"
    line_shows: bool = True
    filling_shows: bool = True
    width: float = 1.0
    dashes: tuple[float, ...] = ()
    font_size: float = 16.0
    anchor: Anchor = "start"
    vertical: bool = False

    def look(self, scale: float) -> Look:
        """How a stroke looks where a user unit is ``scale`` mm."""
        line = self.line if self.line_shows else None
        return Look(
            line,
            self.filling if self.filling_shows else None,
            self.width * scale if line is not None else 0.0,
            tuple(dash * scale for dash in self.dashes) if line is not None else (),
        )


Server = Callable[[str], str | None]
"""The colour that stands for a gradient or a pattern, by its id."""


class Styles:
    """The styles of a drawing's elements; equal ones are made once."""

    def __init__(self, sheet: Sheet, server: Server) -> None:
        self._sheet = sheet
        self._server = server
        self._known: dict[tuple[Style, Frame, tuple[tuple[str, str], ...]], Style] = {}

    def declared(self, element: Any, tag: str) -> Declared:
        """Everything that is declared for an element, the weightiest declaration of each property; others may be there."""
        found = {name: value for name, value in element.items() if name in PROPERTIES}
        rules = self._sheet.rules(element, tag)
        inline = element.get("style")
        if not rules and inline is None:
            return found
        if not rules and not found and inline is not None and not declarations(inline).important:
            return declarations(inline).normal
        every = [rule.declared for rule in rules]
        if inline is not None:
            every.append(declarations(inline))
        for each in every:
            found.update(each.normal)
        for each in every:
            found.update(each.important)
        return found

    def derived(self, above: Style, declared: Declared, frame: Frame) -> Style:
        """The style of an element in one of style ``above``."""
        own = tuple((name, value) for name, value in declared.items() if name in _INHERITED)
        if not own:
            return above
        key = (above, frame, own)
        if key not in self._known:
            self._known[key] = self._made(above, dict(own), frame)
        return self._known[key]

    def _made(self, above: Style, own: Mapping[str, str], frame: Frame) -> Style:
        changed: dict[str, Any] = {}
        own = {name: value for name, value in own.items() if value not in ("inherit", "unset")}
        size = _font_size(own, above.font_size, frame)
        if size is not None:
            changed["font_size"] = size
        if "color" in own:
            changed["colour"] = colour(own["color"]) or above.colour
        here = replace(above, **changed)
        for name, value in own.items():
            changed |= self._property(name, value, here, frame)
        return replace(above, **changed)

    def _property(self, name: str, value: str, here: Style, frame: Frame) -> Mapping[str, Any]:
        match name:
            case "fill":
                return {"filling": self._paint(value, here)}
            case "stroke":
                return {"line": self._paint(value, here)}
            case "fill-opacity":
                return {"filling_shows": _opacity(value)}
            case "stroke-opacity":
                return {"line_shows": _opacity(value)}
            case "visibility":
                return {"visible": value not in ("hidden", "collapse")}
            case "stroke-width":
                width = length(value, frame, "", here.font_size)
                return {} if width is None or width < 0.0 else {"width": width}
            case "stroke-dasharray":
                return {"dashes": _dashes(value, here.font_size, frame)}
            case "text-anchor":
                return {"anchor": value} if value in _ANCHORS else {}
            case "writing-mode":
                return {"vertical": value.startswith(("tb", "vertical", "sideways"))}
            case _:
                return {}

    def _paint(self, text: str, here: Style) -> str | None:
        if text == "none" or text == "transparent":
            return None
        if text.lower() == "currentcolor":
            return here.colour
        if text.startswith("url("):
            link, _, other = text[4:].partition(")")
            return self._server(link.strip(" \t\n\"'").removeprefix("#")) or colour(other)
        return colour(text)


def _opacity(value: str) -> bool:
    try:
        return float(value.removesuffix("%")) > 0.0
    except ValueError:
        return True


def _dashes(text: str, font_size: float, frame: Frame) -> tuple[float, ...]:
    """Dashes in user units; none where one is no length, all are nothing, or there are more than any line has."""
    if text == "none":
        return ()
    try:
        numbers, end = leading_numbers(text)
    except Malformed:
        return ()
    found: list[float] = numbers
    if end < len(text):
        read = [length(part, frame, "", font_size) for part in text.replace(",", " ").split()]
        found = [dash for dash in read if dash is not None]
        if len(found) < len(read):
            return ()
    if len(found) > _MOST_DASHES or any(dash < 0.0 for dash in found) or sum(found) <= 0.0:
        return ()
    # An odd count is gone through twice, so that lines and gaps change over.
    return tuple(found * 2 if len(found) % 2 else found)


def _font_size(own: Mapping[str, str], above: float, frame: Frame) -> float | None:
    text = own.get("font-size")
    if text is None:
        if "font" not in own:
            return None
        sizes = [word.partition("/")[0] for word in own["font"].split()]
        text = next((word for word in sizes if word[:1].isdigit() and not word.isdigit()), None)
        if text is None:
            return None
    if text in _SIZES:
        return _SIZES[text]
    if text in ("smaller", "larger"):
        return above / 1.2 if text == "smaller" else above * 1.2
    if text.endswith("%"):
        share = length(text[:-1], frame, "", above)
        return None if share is None else above * share / 100.0
    size = length(text, frame, "", above)
    return size if size is not None and size >= 0.0 else None
