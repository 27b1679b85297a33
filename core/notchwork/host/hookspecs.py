"""The whole extension surface, in the order in which the hooks are called.

A plugin is a module with functions of these names marked ``hookimpl``, named by an entry point of the group
"notchwork.plugins". A hook returns declarations and does no work: nothing is read, computed or printed in it.
"""

from __future__ import annotations

from collections.abc import Iterable

import pluggy

from notchwork.checks import Check
from notchwork.formats import Format

PROJECT = "notchwork"

hookspec = pluggy.HookspecMarker(PROJECT)
hookimpl = pluggy.HookimplMarker(PROJECT)


@hookspec
def notchwork_formats() -> Iterable[Format]:  # type: ignore[empty-body]  # a specification has none
    """The file formats this plugin reads or writes."""


@hookspec
def notchwork_checks() -> Iterable[Check]:  # type: ignore[empty-body]  # a specification has none
    """The checks this plugin adds."""
