"""A drawing with other units."""

from __future__ import annotations

from dataclasses import replace

from notchwork.drawing import Drawing, Fact, Facts, Group

LENGTHS: frozenset[Fact] = frozenset({"depth", "width"})


def scaled(drawing: Drawing, factor: float) -> Drawing:
    """The same drawing with every length times a factor."""
    if factor == 1.0:
        return drawing
    return replace(
        drawing,
        groups=tuple(_group(group, factor) for group in drawing.groups),
        rules={
            name: {size: shift * factor for size, shift in by.items()} for name, by in drawing.rules.items()
        },
    )


def _group(group: Group, factor: float) -> Group:
    return replace(
        group,
        strokes=tuple(
            replace(stroke, cubics=stroke.cubics * factor, facts=_facts(stroke.facts, factor))
            for stroke in group.strokes
        ),
        dots=tuple(replace(dot, at=dot.at * factor, facts=_facts(dot.facts, factor)) for dot in group.dots),
        texts=tuple(
            replace(text, at=text.at * factor, height=text.height * factor, facts=_facts(text.facts, factor))
            for text in group.texts
        ),
        shift=group.shift * factor,
    )


def _facts(facts: Facts, factor: float) -> Facts:
    return {
        key: value * factor if key in LENGTHS and isinstance(value, float) else value
        for key, value in facts.items()
    }
