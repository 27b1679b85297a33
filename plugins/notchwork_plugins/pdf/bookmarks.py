"""Where to go: pages by their titles, pieces by their names. Source: ISO 32000-1:2008, 12.3.3 and 12.4.2."""

from __future__ import annotations

from pikepdf import Array, Dictionary, Name, OutlineItem, Pdf, String

from notchwork.pages import Sheets
from notchwork_plugins.pdf.fonts.scripts import plain

PIECES, PAGES = "Pieces", "Pages"


def bookmarks(pdf: Pdf, sheets: Sheets) -> None:
    """A bookmark for each page without pieces, then all pieces, then all pages that show some."""
    shown: dict[int, int] = {}
    plain_pages, tiles = [], []
    for k, sheet in enumerate(sheets.sheets):
        called = plain(" · ".join(part for part in (sheet.label, sheet.title) if part)) or f"Page {k + 1}"
        item = OutlineItem(called, destination=k)
        if sheet.windows:
            tiles.append(item)
        else:
            plain_pages.append(item)
        for window in sheet.windows:
            shown.setdefault(window.group, k)
    pieces = [
        OutlineItem(plain(str(group.facts.get("name", group.name))) or f"Piece {g + 1}", destination=shown[g])
        for g, group in enumerate(sheets.groups)
        if g in shown
    ]
    with pdf.open_outline() as outline:
        outline.root.extend(plain_pages)
        for name, items in ((PIECES, pieces), (PAGES, tiles)):
            if items:
                head = OutlineItem(name, destination=items[0].destination)
                head.children.extend(items)
                outline.root.append(head)


def page_labels(pdf: Pdf, sheets: Sheets) -> None:
    """Pages are called in a viewer what they are called in the plan; those without a label by their number."""
    numbers: list[object] = []
    for k, sheet in enumerate(sheets.sheets):
        label = Dictionary(P=String(plain(sheet.label))) if sheet.label else Dictionary(S=Name.D, St=k + 1)
        numbers += [k, label]
    if numbers:
        pdf.Root.PageLabels = Dictionary(Nums=Array(numbers))
