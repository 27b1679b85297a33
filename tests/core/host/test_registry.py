from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from importlib.metadata import EntryPoint
from types import ModuleType

import pytest

from notchwork.checks import Check
from notchwork.findings import Rule, Severity, worded
from notchwork.formats import Format
from notchwork.host import GROUP, hookimpl, plugin_names
from notchwork.host.installed import installed
from notchwork.host.registry import built

Plugin = Callable[..., EntryPoint]


def rule(ident: str) -> Rule:
    return Rule(ident, "t", "r", "s", Severity.INFO)


def a_check(ident: str) -> Check:
    return Check(rule(ident), lambda nest: iter(()))


def a_format(name: str) -> Format:
    return Format(name, name, (f".{name}",), lambda start: False, rules=(rule(f"{name}/broken"),))


@pytest.fixture
def plugin() -> Iterator[Plugin]:
    """Make a plugin of functions by hook name; it is importable while the test runs."""
    made: list[str] = []

    def make(name: str, **hooks: Callable[[], object]) -> EntryPoint:
        module = ModuleType(f"stranger_{name}")
        for hook, function in hooks.items():
            setattr(module, hook, hookimpl(function))
        sys.modules[module.__name__] = module
        made.append(module.__name__)
        return EntryPoint(name, module.__name__, GROUP)

    yield make
    for name in made:
        del sys.modules[name]


def told(points: list[EntryPoint]) -> list[str]:
    return [worded(finding.text, finding.values) for finding in built(points).findings]


def test_all_that_is_declared_is_sorted_and_every_rule_is_known(plugin: Plugin) -> None:
    points = [
        plugin("b", notchwork_checks=lambda: (a_check("hems/z"), a_check("hems/a"))),
        plugin(
            "a", notchwork_checks=lambda: [a_check("darts/a")], notchwork_formats=lambda: [a_format("svg")]
        ),
    ]
    registry = built(points)
    assert [check.id for check in registry.checks] == ["darts/a", "hems/a", "hems/z"]
    assert [known.name for known in registry.formats] == ["svg"]
    assert {"darts/a", "svg/broken", "internal/plugin-broken", "losses/not-carried"} <= set(registry.rules)
    assert list(registry.rules) == sorted(registry.rules)
    assert registry.findings == ()


def test_a_plugin_that_cannot_be_imported_costs_one_finding(plugin: Plugin) -> None:
    points = [
        EntryPoint("gone", "stranger_not_there", GROUP),
        plugin("ok", notchwork_checks=lambda: [a_check("hems/a")]),
    ]
    assert [check.id for check in built(points).checks] == ["hems/a"]
    assert told(points) == [
        "The plugin gone was left out (ModuleNotFoundError: No module named 'stranger_not_there')."
    ]


@pytest.mark.parametrize("error", [RuntimeError("no"), SystemExit(3)])
def test_a_hook_that_fails_costs_one_finding(plugin: Plugin, error: BaseException) -> None:
    def fails() -> object:
        raise error

    points = [
        plugin("bad", notchwork_checks=fails),
        plugin("ok", notchwork_checks=lambda: [a_check("hems/a")]),
    ]
    assert [check.id for check in built(points).checks] == ["hems/a"]
    assert len(told(points)) == 1


def test_a_hook_of_an_unknown_name_is_told(plugin: Plugin) -> None:
    [said] = told([plugin("typo", notchwork_cheks=lambda: ())])
    assert "typo" in said
    assert "notchwork_cheks" in said


def test_what_is_no_check_is_refused(plugin: Plugin) -> None:
    [said] = told([plugin("odd", notchwork_checks=lambda: ["not a check"])])
    assert said == "The plugin odd was left out (it declares 'not a check' as a check)."


def test_the_first_of_two_declarations_of_one_name_stays(plugin: Plugin) -> None:
    first = a_check("hems/a")
    points = [
        plugin("a", notchwork_checks=lambda: [first]),
        plugin("b", notchwork_checks=lambda: [a_check("hems/a")]),
    ]
    assert built(points).checks[0] is first
    assert told(points) == ["The plugin b was left out (a check hems/a is there already)."]


def test_the_programs_own_plugins_come_first() -> None:
    own = sorted(point.name for point in installed() if point.owner == "notchwork")
    assert {"checks_seams", "open_json"} <= set(own)
    assert list(plugin_names()[: len(own)]) == own
