"""Sizes as layers that a viewer can switch. Source: ISO 32000-1:2008, 8.11, optional content."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from notchwork.drawing import Dot, Group, Stroke, Text
from notchwork_plugins.pdf.fonts.scripts import plain

Part = Stroke | Dot | Text


def parts_of(group: Group) -> list[Part]:
    """Everything of a group: lines below points below words."""
    return [*group.strokes, *group.dots, *group.texts]


def size_of(part: Part) -> str | None:
    """The size in whose layer a part lies, None for what holds for all."""
    size = part.facts.get("size")
    return size if isinstance(size, str) else None


class Layers:
    """The layers of a file, one for each size in order; none where there is one size only, for there is nothing to switch."""

    def __init__(self, pdf: Pdf, sizes: Iterable[str], groups: Iterable[Group]) -> None:
        named = dict.fromkeys(sizes)
        for group in groups:
            for part in parts_of(group):
                if (size := size_of(part)) is not None:
                    named[size] = None
        several = named if len(named) > 1 else {}
        self._names = {size: f"S{k}" for k, size in enumerate(several)}
        self._objects = {
            size: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(plain(size)))) for size in several
        }

    def __bool__(self) -> bool:
        return bool(self._names)

    def __contains__(self, size: str | None) -> bool:
        return size in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def name(self, size: str | None) -> str | None:
        """What a content stream calls a size's layer."""
        return None if size is None else self._names.get(size)

    def properties(self, sizes: Iterable[str]) -> Dictionary:
        """The layers of some sizes, as the resources of a content stream hold them."""
        return Dictionary({f"/{self._names[size]}": self._objects[size] for size in sizes})

    @property
    def listed(self) -> Dictionary:
        """How a viewer lists them: all in order, all shown."""
        every: list[Object] = list(self._objects.values())
        return Dictionary(
            OCGs=Array(every),
            D=Dictionary(
                Name=String("Sizes"),
                BaseState=Name.ON,
                ON=Array(every),
                OFF=Array(),
                Order=Array(every),
                ListMode=Name.AllPages,
            ),
        )
