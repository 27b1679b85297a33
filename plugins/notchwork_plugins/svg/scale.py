"""How many mm one unit of a drawing is: from its width and height against its viewBox, or as a person states it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from notchwork.drawing import Group, Stroke
from notchwork.findings import Length, NotchworkError, Notes, PersonUnit, Rule
from notchwork.geometry import area, bounds
from notchwork_plugins.svg.lengths import MM_PER_INCH, PER_INCH, PX_PER_INCH, Frame, Measure, measure
from notchwork_plugins.svg.numbers import Malformed
from notchwork_plugins.svg.rules import BAD_VALUE, SCALE, SCALE_UNCLEAR, STRETCHED
from notchwork_plugins.svg.tree import INKSCAPE
from notchwork_plugins.svg.viewports import Box, aspect, factors, view_box

_STATE_IT = (
    "Measure something whose size you know. If it is not right, say what is: -O dpi=72, -O dpi=90, or -O scale=1mm "
    "for what one unit is."
)

_OLD_EDITOR = re.compile(r"0\.(?:\d|[0-8]\d|9[01])(?!\d)")
"""Versions of a general editor that counted 90 px to the inch; 0.92 and later count 96."""

_PAPERS = (
    (841, 1189), (594, 841), (420, 594), (297, 420), (210, 297), (148, 210), (215.9, 279.4), (215.9, 355.6), (279.4, 431.8),
)  # fmt: skip
"""ISO 216 A0 to A5; ANSI A and B, and legal (mm)."""

_SAME_PAPER = 0.6
"""mm; ISO 216 lets sheets differ by more, but files state what was chosen."""

_UNEVEN = 1e-3


@dataclass(frozen=True, slots=True)
class Stated:
    """What a person says of the size: mm for one unit of the drawing, px to the inch."""

    unit: float | None = None
    dpi: float | None = None


@dataclass(frozen=True, slots=True)
class Scale:
    """mm for one unit across and down, what lengths in the drawing are measured against, and whether it is settled.

    ``in_px`` is what is to be said where it is not, before a test square was looked for: rule, text and values.
    """

    across: float
    down: float
    frame: Frame
    settled: bool
    in_px: tuple[Rule, str, Mapping[str, object]] | None = None


def stated(options: Mapping[str, str], name: str) -> Stated:
    """The options ``scale`` and ``dpi``. Raises NotchworkError for what is no size."""
    unit = dpi = None
    if "scale" in options:
        said = measure(options["scale"])
        per_inch = None if said is None else PER_INCH.get(said.unit or "mm")
        if said is None or per_inch is None or not 1e-6 <= said.number <= 1e6:
            raise NotchworkError(
                name,
                f"The scale “{options['scale']}” is no length.",
                "Say what one unit is, such as 1mm, 1in or 0.2646.",
            )
        unit = said.number * MM_PER_INCH / per_inch
    if "dpi" in options:
        number = measure(options["dpi"])
        if number is None or number.unit or not 1.0 <= number.number <= 1e5:
            raise NotchworkError(
                name, f"The dpi “{options['dpi']}” are no number of px to the inch.", "Say 72, 90 or 96."
            )
        dpi = number.number
    return Stated(unit, dpi)


def scale_of(root: Any, head: bytes, said: Stated, notes: Notes) -> Scale:
    """The scale of a drawing by its root element and the first bytes of the file; ``notes`` takes what is to be told."""
    px = said.dpi or PX_PER_INCH
    box = _view_box(root, notes)
    sizes = (_size(root, "width", notes), _size(root, "height", notes))
    wide, tall = (None if size is None else _mm(size, px) for size in sizes)
    frame = Frame(_frame_size(box, wide, tall, px), px)
    if said.unit is not None:
        text = "One unit of the drawing was taken as {unit} mm, as stated."
        notes.add(SCALE, text, values={"unit": _figure(said.unit)})
        return Scale(said.unit, said.unit, frame, True)
    across = down = MM_PER_INCH / px
    in_px = True
    if box is not None and (viewport := _viewport(box, wide, tall)) is not None:
        across, down = factors(box.size, viewport, aspect(root.get("preserveAspectRatio")))
        in_px = any(size is not None and size.unit in ("", "px") for size in sizes)
    if abs(across - down) > _UNEVEN * max(across, down):
        notes.add(
            STRETCHED,
            "One unit of the drawing is {across} mm across and {down} mm down.",
            "Look whether a square in it is square; if not, set the page to the drawing's own shape and save it again.",
            values={"across": _figure(across), "down": _figure(down)},
        )
    size = frame.size or 0j
    page = complex(size.real * across, size.imag * down)
    values = {
        "px": _figure(px),
        "unit": _figure(across),
        "wide": Length(page.real),
        "tall": Length(page.imag),
    }
    if not in_px:
        text = "One unit of the drawing is {unit} mm: it states a page of {wide} by {tall}."
        notes.add(SCALE, text, values=values)
    elif said.dpi is not None:
        text = "{px} px were taken as an inch, as stated: one unit of the drawing is {unit} mm."
        notes.add(SCALE, text, values=values)
    else:
        read = " It was read with {px} px to the inch, as the standard says: one unit is {unit} mm"
        read += ", the page {wide} by {tall}." if page else "."
        rule, why = SCALE, "The drawing counts in px."
        if others := sorted(set(_other_dpi(page * px / MM_PER_INCH, head, root))):
            rule = SCALE_UNCLEAR
            why = (
                f"The drawing counts in px, perhaps {' or '.join(map(_figure, others))} of them to the inch."
            )
        elif wide is None and tall is None:
            rule, why = SCALE_UNCLEAR, "Nothing in the drawing says how large it is."
        return Scale(across, down, frame, False, (rule, why + read, values))
    return Scale(across, down, frame, True)


def tell_if_unsettled(scale: Scale, groups: Iterable[Group], notes: Notes) -> None:
    """Say how px were read; without alarm where a test square says by its facts how wide it is, for that is gone by then."""
    if scale.in_px is None:
        return
    rule, text, values = scale.in_px
    if any(_is_test_square(stroke) for group in groups for stroke in group.strokes):
        notes.add(SCALE, "The drawing counts in px, so its test square is taken to say how large it is.")
    else:
        notes.add(rule, text, _STATE_IT, values=values)


def _is_test_square(stroke: Stroke) -> bool:
    """Whether it will be believed: it states its width, and nobody has pulled at it."""
    if stroke.facts.get("kind") != "test-square" or not stroke.facts.get("width") or not stroke.closed:
        return False
    low, high = bounds(stroke.cubics)
    wide, tall = (high - low).real, (high - low).imag
    return max(wide, tall) <= 1.03 * min(wide, tall) and abs(area(stroke.cubics)) > 0.97 * wide * tall


def page_unit(root: Any) -> PersonUnit:
    """The unit in which the drawing states its page, if its maker may think in it: cm or inches, else mm."""
    said = (measure(text) for name in ("width", "height") if (text := root.get(name)) is not None)
    units = [size.unit for size in said if size is not None]
    return "in" if "in" in units else "cm" if "cm" in units else "mm"


def _viewport(box: Box, wide: float | None, tall: float | None) -> complex | None:
    """The page in mm; a side that is not stated follows from the viewBox."""
    if wide is None:
        return None if tall is None else tall * box.size / box.size.imag
    return wide * box.size / box.size.real if tall is None else complex(wide, tall)


def _other_dpi(page: complex, head: bytes, root: Any) -> Iterator[float]:
    """The px to an inch that speak from the file: by who wrote it, or because the page (px) is then a sheet of paper."""
    if _OLD_EDITOR.match(root.get(f"{INKSCAPE}version") or ""):
        yield 90.0
    if b"adobe" in head.lower() and b"illustrator" in head.lower():
        yield 72.0
    if page and not _is_paper(page * MM_PER_INCH / PX_PER_INCH):
        yield from (dpi for dpi in (72.0, 90.0) if _is_paper(page * MM_PER_INCH / dpi))


def _is_paper(page: complex) -> bool:
    short, long = sorted((page.real, page.imag))
    return any(abs(short - a) < _SAME_PAPER and abs(long - b) < _SAME_PAPER for a, b in _PAPERS)


def _view_box(root: Any, notes: Notes) -> Box | None:
    text = root.get("viewBox")
    if text is None:
        return None
    try:
        return view_box(text)
    except Malformed as fault:
        notes.add(
            BAD_VALUE,
            "The drawing's viewBox means nothing ({why}); it was left out.",
            values={"why": fault.why},
        )
        return None


def _size(root: Any, name: str, notes: Notes) -> Measure | None:
    """The width or height that is stated; None where there is none or it depends on a window."""
    text = root.get(name)
    if text is None or text.strip() == "auto":
        return None
    said = measure(text)
    if said is not None and said.unit == "%":
        return None
    if said is None or said.unit not in ("", "px", *PER_INCH) or said.number <= 0.0:
        values = {"name": name, "text": text[:40]}
        notes.add(BAD_VALUE, "The drawing's {name} “{text}” is no size; it was left out.", values=values)
        return None
    return said


def _mm(said: Measure, px: float) -> float:
    return said.number * MM_PER_INCH / PER_INCH.get(said.unit, px)


def _frame_size(box: Box | None, wide: float | None, tall: float | None, px: float) -> complex | None:
    if box is not None:
        return box.size
    if wide is None or tall is None:
        return None
    return complex(wide, tall) * px / MM_PER_INCH


def _figure(value: float) -> str:
    return f"{value:.6g}"
