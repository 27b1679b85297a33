"""Bytes to a tree of elements, with guards: nothing is fetched, unpacked or expanded without bounds.

A document type's own entities are expanded, for drawing programs write them; everything outside the file is refused.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any, NoReturn

from lxml import etree

from notchwork.findings import NotchworkError

SVG = "http://www.w3.org/2000/svg"
XLINK = "{http://www.w3.org/1999/xlink}"
INKSCAPE = "{http://www.inkscape.org/namespaces/inkscape}"

MOST_ELEMENTS = 200_000
MOST_ATTRIBUTES = 256
_CHUNK = 1 << 16
_TITLE_AMONG = 4
"""An element's title stands first in it, or nearly so; searching all it holds could take any time."""

_EXPORT_AGAIN = "Open it in the program that made it and save it again as plain SVG."


class Unreadable(NotchworkError):
    """These bytes are no drawing that can be read."""


def parsed(data: bytes, name: str) -> Any:
    """The root element. Raises Unreadable."""
    if data[:2] == b"\x1f\x8b":
        raise Unreadable(
            name, "This drawing is compressed (.svgz).", "Save it as plain SVG, or unpack it first."
        )
    if not data.strip():
        raise Unreadable(name, "The file is empty.", _EXPORT_AGAIN)
    try:
        root = _root(data, name)
    except etree.XMLSyntaxError as error:
        _refuse(name, error)
    if root.tag not in ("svg", f"{{{SVG}}}svg"):
        raise Unreadable(name, f"This is no SVG drawing: it begins with <{_short(root.tag)}>.", _EXPORT_AGAIN)
    return root


def svg_tag(element: Any) -> str:
    """The element's name where it is one of SVG's, else ""."""
    tag: str = element.tag
    space, brace, name = tag.rpartition("}")
    return name if not brace or space == f"{{{SVG}" else ""


def children(element: Any) -> Iterator[Any]:
    """The elements in an element; what is no element (instructions, entities) is passed over."""
    return (child for child in element if isinstance(child.tag, str))


def name_of(element: Any) -> str:
    """What its maker calls an element: the label that an editor shows, its title, or its id; "" if it has none."""
    label = element.get(f"{INKSCAPE}label") or element.get("data-name")
    if label:
        return str(label)
    for child in islice(children(element), _TITLE_AMONG):
        if svg_tag(child) == "title" and (title := " ".join("".join(child.itertext()).split())):
            return title
    return str(element.get("id") or "")


def thing(element: Any) -> str:
    """An element as it is named in messages."""
    name = name_of(element)
    called = f"{svg_tag(element)} “{name[:60]}”" if name else svg_tag(element)
    return f"{called} (line {element.sourceline})"


def _root(data: bytes, name: str) -> Any:
    """Parsed in chunks, so that a bomb is met before it has gone off."""
    parser = etree.XMLPullParser(
        events=("start",),
        load_dtd=False,
        no_network=True,
        resolve_entities="internal",
        remove_comments=True,
        huge_tree=False,
    )
    count = 0
    for start in range(0, len(data), _CHUNK):
        parser.feed(data[start : start + _CHUNK])
        for _, element in parser.read_events():
            count += 1
            if len(element.attrib) > MOST_ATTRIBUTES:
                raise Unreadable(
                    name,
                    f"An element has more than {MOST_ATTRIBUTES} attributes.",
                    _EXPORT_AGAIN,
                    element.sourceline,
                )
        if count > MOST_ELEMENTS:
            raise too_large(name)
    return parser.close()


def too_large(name: str) -> Unreadable:
    """The error about a drawing with too many parts."""
    return Unreadable(
        name,
        f"The drawing is larger than any pattern: more than {MOST_ELEMENTS:,} parts, or as much work as that.",
        "Delete from it what does not belong to the pattern, and save it again.",
    )


def _refuse(name: str, error: etree.XMLSyntaxError) -> NoReturn:
    line, column = error.position
    said = (error.msg or "").removesuffix(".")
    if "entit" in said.lower() or "amplification" in said.lower():
        why = "The drawing uses entities that lie outside it, refer to themselves or swell without end"
    elif "depth" in said.lower():
        why = "Groups in the drawing lie more than 256 deep in each other"
    elif "huge" in said.lower() or "too long" in said.lower():
        why = "A single text or value in the drawing is larger than 10 MB"
    else:
        why = f"The drawing is not well-formed XML, or breaks off ({said.split(', line ')[0]})"
    raise Unreadable(name, f"{why}.", _EXPORT_AGAIN, line or None, column or None) from None


def _short(tag: str) -> str:
    return tag.rpartition("}")[2][:40]
