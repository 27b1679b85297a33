"""An SVG file read as a drawing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notchwork.drawing import Drawing
from notchwork.findings import Notes
from notchwork.formats import Read, Source
from notchwork.geometry.affine import scaling
from notchwork_plugins.svg.colours import colour
from notchwork_plugins.svg.css import Sheet, TooManyStyles
from notchwork_plugins.svg.ink import Ink
from notchwork_plugins.svg.metadata import attached
from notchwork_plugins.svg.paths import TooMany
from notchwork_plugins.svg.reuse import Reuse
from notchwork_plugins.svg.rules import OUT_OF_BOUNDS, STYLE_NOT_READ
from notchwork_plugins.svg.said import sizes_of
from notchwork_plugins.svg.scale import page_unit, scale_of, stated, tell_if_unsettled
from notchwork_plugins.svg.style import Server, Style, Styles
from notchwork_plugins.svg.tree import XLINK, children, name_of, parsed, svg_tag, thing, too_large
from notchwork_plugins.svg.walk import Scope, Walk

_HEAD = 4096


def read(source: Source, options: Mapping[str, str]) -> Read:
    """The drawing and what is to be said of it.

    Coordinates are the drawing's own, in mm and turned upward: where its origin is, is 0. Raises NotchworkError.
    """
    said = stated(options, source.name)
    root = parsed(source.data, source.name)
    notes = Notes()
    scale = scale_of(root, source.data[:_HEAD], said, notes)
    reuse = Reuse(root)
    ink = Ink()
    styles = Styles(_sheet(root, notes), _server(reuse.ids))
    # y is downward in the file and upward here.
    start = Scope(scaling(scale.across, -scale.down), Style(), scale.frame, ink.open_group("", ()))
    try:
        Walk(source.name, reuse, styles, ink, notes).through(root, start)
        groups, lost = ink.groups()
    except (TooMany, TooManyStyles) as error:
        raise too_large(source.name) from error
    for element in lost:
        notes.add(
            OUT_OF_BOUNDS,
            "More than a kilometre away, and left out: {things}.",
            "Look at its numbers.",
            thing(element),
        )
    tell_if_unsettled(scale, groups, notes)
    drawing = Drawing(
        groups,
        title=_title(root),
        sizes=sizes_of(root),
        base=root.get("data-base"),
        scale=1.0 if scale.settled else None,
        attached=attached(root),
        unit=page_unit(root),
    )
    return Read(None, tuple(notes.findings()), drawing=drawing)


def _title(root: Any) -> str:
    """What the drawing calls itself; its id is only an editor's habit."""
    return "" if (name := name_of(root)) == root.get("id") else name


def _sheet(root: Any, notes: Notes) -> Sheet:
    """All style sheets inside the drawing."""
    sheet = Sheet()
    for element in root.iter("{*}style"):
        if svg_tag(element) and (element.get("type") or "text/css").strip() in ("text/css", ""):
            sheet.add("".join(element.itertext()))
    linked = [
        f"the style sheet {node.get('href')}"
        for node in _instructions(root)
        if node.target == "xml-stylesheet"
    ]
    for rule in (*sheet.unread, *linked):
        notes.add(
            STYLE_NOT_READ,
            "Rules of style were not read: {things}.",
            "If something is shown that should be hidden, hide it by itself.",
            " ".join(rule.split())[:60],
        )
    return sheet


def _instructions(root: Any) -> list[Any]:
    return [node for node in root.itersiblings(preceding=True) if hasattr(node, "target")]


def _server(ids: Mapping[str, Any]) -> Server:
    """Gradients stand for the colour they begin with, patterns for grey."""

    def server(ident: str) -> str | None:
        for _ in range(8):
            element = ids.get(ident)
            if element is None:
                return None
            if svg_tag(element) == "pattern":
                return "#808080"
            for stop in children(element):
                declared = dict(
                    part.split(":", 1) for part in (stop.get("style") or "").split(";") if ":" in part
                )
                return colour(declared.get("stop-color", stop.get("stop-color") or "black"))
            ident = (element.get("href") or element.get(f"{XLINK}href") or "").strip().removeprefix("#")
        return None

    return server
