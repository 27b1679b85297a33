"""All that the plugins declare, sorted and without duplicates, and every rule a person may be told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property

from notchwork import checks as checks_room
from notchwork import formats as formats_room
from notchwork.checks import Check
from notchwork.findings import Finding, Rule
from notchwork.formats import Format
from notchwork.host.installed import Plugin
from notchwork.host.plugins import BROKEN, broken, declared, loaded


@dataclass(frozen=True)
class Registry:
    """The checks by id, the formats by name, every rule by id, and what is to be said of plugins that do not work."""

    checks: tuple[Check, ...]
    formats: tuple[Format, ...]
    findings: tuple[Finding, ...]

    @cached_property
    def rules(self) -> Mapping[str, Rule]:
        return {rule.id: rule for rule in sorted(_rules(self.checks, self.formats), key=lambda rule: rule.id)}


@cache
def registry() -> Registry:
    """What the installed plugins declare; loaded once."""
    return built()


def built(points: Iterable[Plugin] | None = None) -> Registry:
    """What the given plugins (all that are installed, if None) declare."""
    manager, findings = loaded(points)
    formats: dict[str, Format] = {}
    for plugin, thing in declared(manager, "notchwork_formats", findings):
        if not isinstance(thing, Format):
            findings.append(broken(plugin, f"it declares {thing!r} as a format"))
        elif thing.name in formats:
            findings.append(broken(plugin, f"a format {thing.name} is there already"))
        else:
            formats[thing.name] = thing
    checks: dict[str, Check] = {}
    for plugin, thing in declared(manager, "notchwork_checks", findings):
        if not isinstance(thing, Check):
            findings.append(broken(plugin, f"it declares {thing!r} as a check"))
        elif thing.id in checks:
            findings.append(broken(plugin, f"a check {thing.id} is there already"))
        else:
            checks[thing.id] = thing
    return Registry(
        checks=tuple(checks[ident] for ident in sorted(checks)),
        formats=tuple(formats[name] for name in sorted(formats)),
        findings=tuple(findings),
    )


def _rules(checks: Iterable[Check], formats: Iterable[Format]) -> Iterator[Rule]:
    yield from (check.rule for check in checks)
    yield from (rule for declared_format in formats for rule in declared_format.rules)
    yield from checks_room.RULES
    yield from formats_room.RULES
    yield from _of_drawings()
    yield BROKEN


def _of_drawings() -> Iterable[Rule]:
    # Reading drawings takes longer to import than most commands take to run.
    from notchwork.recognise import RULES

    return RULES
