"""``notchwork explain``, ``checks``, ``formats`` and ``schema``."""

from __future__ import annotations

from argparse import Namespace

from notchwork import jobs
from notchwork.cli.streams import say
from notchwork.cli.terminal import paper
from notchwork.report import checks_text, formats_text, rule_text


def run(arguments: Namespace) -> int:
    """Print what was asked for."""
    match arguments.what:
        case "explain":
            explained = [jobs.explain(rule) for rule in arguments.rules]
            say("\n".join(rule_text(e.rule, e.is_check, paper()) for e in explained), end="")
        case "checks":
            say(checks_text(jobs.checks(), paper()), end="")
        case "formats":
            say(formats_text(jobs.formats(), paper()), end="")
        case "schema":
            say(jobs.schema(arguments.name), end="")
    return 0
