"""The header's variables, and the entries of the tables that are read."""

from __future__ import annotations

from notchwork_plugins.dxf.file.entity import Entity, Layer

Variables = dict[str, tuple[tuple[int, str], ...]]


def variables_of(tags: list[tuple[int, str]]) -> Variables:
    """The header's variables by name in capitals, from its tags."""
    found: dict[str, list[tuple[int, str]]] = {}
    inside: list[tuple[int, str]] = []
    for code, value in tags:
        if code == 9:
            inside = found[value.strip().upper()] = []
        else:
            inside.append((code, value.strip()))
    return {name: tuple(values) for name, values in found.items()}


def layer_of(entry: Entity) -> Layer:
    """A layer from its entry. It is off where its colour is below 0, and frozen by the first bit of its flags."""
    colour = entry.flag(62, 7)
    shown = colour >= 0 and not entry.flag(70) & 1
    return Layer(entry.text(2).strip(), shown, abs(colour), entry.text(6, "CONTINUOUS").strip())


def dashes_of(entry: Entity) -> tuple[float, ...]:
    """The dashes and gaps of a line type from its entry."""
    return tuple(entry.numbers(49))
