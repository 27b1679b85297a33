"""Every rule of recognition, wherever it is written down."""

from __future__ import annotations

from notchwork.findings import Rule
from notchwork.recognise import rules as of_shapes
from notchwork.recognise.words import rules as of_words

RULES: tuple[Rule, ...] = tuple(
    {
        rule.id: rule
        for module in (of_shapes, of_words)
        for rule in vars(module).values()
        if isinstance(rule, Rule)
    }.values()
)
