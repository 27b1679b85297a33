"""A drawing on pages of a home printer: first page, plan of assembly, pages of pieces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.drawing import Group
from notchwork.findings import Count, Finding, Place
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.furnish import furnished
from notchwork.pages.joining.placing import Laid, laid_on_tiles
from notchwork.pages.joining.tiles import Tile, pages_of, tiles
from notchwork.pages.order import Order
from notchwork.pages.reading.front import FIRST, front
from notchwork.pages.reading.matter import Matter
from notchwork.pages.reading.plan import PLAN, plan
from notchwork.pages.rules import PAGE_COUNT
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import listed_pages
from notchwork.pages.sheet import Sheet


def tiled(order: Order) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """All pages, and what is to be said of them; pages of pieces lie down where that saves some."""
    drawing, groups, shapes, drawn = order.drawing, order.groups, order.shapes, order.drawn
    frame, join, turn = order.frame, order.join, order.turn
    upright = frame
    laid = laid_on_tiles(shapes, frame, turn)
    if turn == "drawn":
        # Pieces that may be turned are turned; for those that may not, the page is.
        lying = Frame(complex(frame.size.imag, frame.size.real), frame.margin, frame.strip)
        if (other := laid_on_tiles(shapes, lying, turn)).pages < laid.pages:
            laid, frame = other, lying
    pages, plots = tiles(shapes, drawn, laid, frame)
    plans = plan(drawing, groups, shapes, plots, join, upright.size, upright.margin) if pages else ()
    fronts: tuple[Pen, ...] = ()
    # How many first pages there are stands on the first page.
    for _ in range(2):
        before = len(fronts) + len(plans)
        matter = Matter(
            drawing,
            order.sizes,
            _found(groups, pages, before),
            tuple(_counted(pages, _joined(laid), laid, before)),
        )
        fronts = front(matter, upright.size, upright.margin)
    before = len(fronts) + len(plans)
    total = before + len(pages)
    sheets = [_read(pen, upright, FIRST if k == 0 else f"{FIRST}, continued") for k, pen in enumerate(fronts)]
    sheets += (_read(pen, upright, PLAN if k == 0 else f"{PLAN}, continued") for k, pen in enumerate(plans))
    sheets += (
        furnished(page, groups, drawn, frame, join, drawing.title, before + k, total)
        for k, page in enumerate(pages, 1)
    )
    text = "It takes {total} pages: {count} of the pattern and {before} to read"
    if (saved := laid.plain - len(pages)) > 0:
        text += "; with a grid of pages for each piece by itself it would be {saved} more"
    values = {"total": total, "count": len(pages), "before": before, "saved": saved}
    found = Finding(PAGE_COUNT, Place(), f"{text}.", values={name: Count(n) for name, n in values.items()})
    return tuple(sheets), (found,)


def _joined(laid: Laid) -> int:
    """How many pages are joined to others."""
    return sum(len(island.cells) for island in laid.joined)


def _read(pen: Pen, frame: Frame, title: str) -> Sheet:
    return Sheet(frame.size, marks=pen.group(), title=title)


def _found(groups: Sequence[Group], pages: Sequence[Tile], before: int) -> dict[str, str]:
    """By a group's name the labels and the numbers of its pages, in words."""
    found = {}
    for k, group in enumerate(groups):
        on = pages_of(k, pages)
        if on:
            labels = listed_pages([pages[page].label for page in on])
            found[group.name] = f"on {labels} ({_numbers([before + page + 1 for page in on])})"
    return found


def _numbers(pages: Sequence[int]) -> str:
    runs: list[list[int]] = []
    for page in pages:
        if runs and page == runs[-1][-1] + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    words = ", ".join(f"{run[0]}" if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)
    return f"page {words}" if len(pages) == 1 else f"pages {words}"


def _counted(pages: Sequence[Tile], joined: int, laid: Laid, before: int) -> Iterator[str]:
    """How many pages there are, and how many were saved."""
    count, alone = len(pages), len(pages) - joined
    parts = [f"{joined if alone else 'all'} to be joined"] if joined else []
    if alone:
        parts.append(f"{alone if joined else 'all'} with whole pieces")
    yield f"{count + before} pages: {before} to read, {count} with the pattern ({', '.join(parts)})."
    if laid.plain > count:
        less = laid.plain - count
        saved = f"{less} {'is' if less == 1 else 'are'} saved"
        yield f"With a grid of its own for every piece there would be {laid.plain} pages of the pattern: {saved}."
