"""What the program knows: rules, checks, formats, schemas."""

from __future__ import annotations

from notchwork.checks import Check
from notchwork.findings import Rule, UnknownName
from notchwork.formats import Format
from notchwork.host import registry
from notchwork.values import frozen

_SCHEMAS = {"pattern": "pattern-1.schema.json", "report": "report-1.schema.json"}


@frozen
class Explained:
    """A rule, and whether it is a check's, which a pattern can grade otherwise or accept."""

    rule: Rule
    is_check: bool


def explain(rule: str) -> Explained:
    """Everything that is to be known of a rule by its id. Raises UnknownName."""
    everything = registry()
    if rule not in everything.rules:
        raise UnknownName("rule", rule, everything.rules)
    return Explained(everything.rules[rule], any(check.id == rule for check in everything.checks))


def family(name: str) -> tuple[Rule, ...]:
    """All rules of a family such as "seams", by id; none where there is no such family."""
    return tuple(rule for rule in registry().rules.values() if rule.family == name.rstrip("/"))


def checks() -> tuple[Check, ...]:
    """All checks by id."""
    return registry().checks


def formats() -> tuple[Format, ...]:
    """All formats by name."""
    return registry().formats


def format_named(name: str) -> Format:
    """A format by its name or one of its suffixes, in any case, with its dot or without. Raises UnknownName."""
    for known in formats():
        if name.lower() in (known.name, *known.suffixes, *(suffix[1:] for suffix in known.suffixes)):
            return known
    raise UnknownName("format", name, [known.name for known in formats()])


def schemas() -> tuple[str, ...]:
    """The names of the schemas that are shipped."""
    return tuple(_SCHEMAS)


def schema(name: str = "pattern") -> str:
    """The text of a shipped JSON Schema: "pattern" or "report". Raises UnknownName."""
    if name not in _SCHEMAS:
        raise UnknownName("schema", name, _SCHEMAS)
    from importlib.resources import files

    return files("notchwork_schemas").joinpath(_SCHEMAS[name]).read_text(encoding="utf-8")
