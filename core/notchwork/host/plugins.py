"""The plugins that are installed, loaded one by one so that a broken one costs one finding and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import pluggy

from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.host import hookspecs
from notchwork.host.installed import Plugin, Point, installed

BROKEN = Rule(
    id="internal/plugin-broken",
    title="An added plugin does not work",
    rationale="A plugin that is installed beside the program could not be loaded or declares something that is not a "
    "check or a format. It was left out; everything else ran.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)


def plugin_names() -> tuple[str, ...]:
    """The names of all installed plugins in the order in which they are loaded, without loading any."""
    return tuple(point.name for point in _installed())


def loaded(points: Iterable[Plugin] | None = None) -> tuple[pluggy.PluginManager, list[Finding]]:
    """A manager with every plugin that could be loaded, and a finding for each that could not."""
    manager = pluggy.PluginManager(hookspecs.PROJECT)
    manager.add_hookspecs(hookspecs)
    findings: list[Finding] = []
    for point in _installed() if points is None else points:
        try:
            manager.register(point.load(), name=point.name)
            manager.check_pending()
        except (Exception, SystemExit) as error:
            if manager.has_plugin(point.name):
                manager.unregister(name=point.name)
            findings.append(broken(point.name, error))
    return manager, findings


def declared(
    manager: pluggy.PluginManager, hook: str, findings: list[Finding]
) -> Iterator[tuple[str, object]]:
    """What each plugin declares by one hook, with the plugin's name; one that fails adds to ``findings``."""
    for implementation in getattr(manager.hook, hook).get_hookimpls():
        try:
            things = list(implementation.function())
        except (Exception, SystemExit) as error:
            findings.append(broken(implementation.plugin_name, error))
        else:
            yield from ((implementation.plugin_name, thing) for thing in things)


def broken(plugin: str, error: BaseException | str) -> Finding:
    """The finding about a plugin that does not work."""
    why = error if isinstance(error, str) else f"{type(error).__name__}: {error}"
    return Finding(
        BROKEN,
        Place(),
        "The plugin {plugin} was left out ({why}).",
        "Update it, or uninstall it.",
        {"plugin": plugin, "why": why},
    )


def _installed() -> list[Point]:
    """The program's own plugins before those of others, each by name, so that a stranger cannot take a name over."""
    return sorted(installed(), key=lambda point: (point.owner != hookspecs.PROJECT, point))
