"""``notchwork report``."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.cli.streams import give, say, tell
from notchwork.cli.terminal import STDIN, called, checks_asked_for, loaded
from notchwork.findings import NotchworkError, Severity, safe
from notchwork.formats import suffix_of
from notchwork.report import verdict_sentence

_STDOUT = "-"
_FINDINGS = 1


def run(arguments: Namespace) -> int:
    """Write the page of one pattern: 0 once that is done, unless ``--fail-on`` asks about findings."""
    source = loaded(arguments.file, arguments)
    target = arguments.output or _beside(arguments.file, source)
    _not_itself(arguments.file, target)
    done = jobs.report(source, checks_asked_for(arguments.only))
    page = done.page.encode()
    if target == _STDOUT:
        jobs.write_report({}, done, arguments.pictures)
        give(page)
    else:
        jobs.write_report({Path(target): page}, done, arguments.pictures)
    told = tell if target == _STDOUT else say
    told(verdict_sentence(done.verdict))
    if target != _STDOUT:
        told(safe(f"Wrote {target}."))
    if arguments.pictures is not None:
        told(safe(f"Wrote {len(done.pictures)} pictures into {arguments.pictures}."))
    return _FINDINGS if _fails(done.verdict, arguments.fail_on) else 0


def _beside(name: str, source: jobs.Loaded) -> str:
    """The page's name where none is given: the pattern's, with another suffix. What is no such page is never replaced."""
    if name == STDIN:
        raise NotchworkError(
            called(name), "It has no name that the page could take.", "Name the page with -o."
        )
    path = Path(name)
    suffix = suffix_of(path.name, source.format) or path.suffix
    target = path.with_name(path.name[: len(path.name) - len(suffix)] + ".html")
    if target.exists() and not jobs.is_report(target):
        raise NotchworkError(
            str(target), "There is something else by this name already.", "Name the page with -o."
        )
    return str(target)


def _not_itself(name: str, target: str) -> None:
    """Raises NotchworkError where the page would take the place of its own pattern."""
    if STDIN not in (name, target) and Path(target).exists() and Path(target).samefile(name):
        raise NotchworkError(target, "This is the pattern itself.", "Name another file for the page.")


def _fails(verdict: Verdict, asked: str | None) -> bool:
    """Whether there is anything as bad as what was asked about; a document with faults always is."""
    return asked is not None and (verdict.checked is None or bool(verdict.at_least(Severity[asked.upper()])))
