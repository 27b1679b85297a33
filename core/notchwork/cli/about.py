"""``notchwork explain``, ``checks``, ``formats`` and ``schema``."""

from __future__ import annotations

from argparse import Namespace

from notchwork import jobs
from notchwork.cli.streams import say
from notchwork.cli.terminal import paper
from notchwork.report import checks_text, format_text, formats_text, rule_text, rules_text


def run(arguments: Namespace) -> int:
    """Print what was asked for."""
    match arguments.what:
        case "explain":
            say("\n".join([_explained(name) for name in arguments.rules]), end="")
        case "checks":
            say(checks_text(jobs.checks(), paper()), end="")
        case "formats":
            names = arguments.formats
            told = [format_text(jobs.format_named(name), paper()) for name in names]
            say("\n".join(told) if told else formats_text(jobs.formats(), paper()), end="")
        case "schema":
            say(jobs.schema(arguments.name), end="")
    return 0


def _explained(name: str) -> str:
    """A rule; or all rules of a family, to choose from."""
    if rules := jobs.family(name):
        return rules_text(rules, paper())
    explained = jobs.explain(name)
    return rule_text(explained.rule, explained.is_check, paper())
