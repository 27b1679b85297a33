"""Which plugins are installed, told from the files in which installed distributions name their entry points.

``importlib.metadata`` tells the same, but importing it takes as long as loading every plugin: it brings the reading of mail,
of archives and of tables, none of which is needed for these files. Where something is installed in an archive it is asked.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pkgutil import resolve_name
from typing import NamedTuple, Protocol

GROUP = "notchwork.plugins"


class Plugin(Protocol):
    """What can be loaded under a name."""

    @property
    def name(self) -> str: ...

    def load(self) -> object:
        """The plugin's module. Raises whatever importing it raises."""


class Point(NamedTuple):
    """An entry point: the plugin's name, where to import it from, and the distribution that brings it."""

    name: str
    value: str
    owner: str

    def load(self) -> object:
        return resolve_name(self.value.partition("[")[0].replace(" ", ""))


def installed(path: Sequence[str] | None = None) -> list[Point]:
    """Every entry point of the group in the folders of ``path`` (``sys.path``, if None), in no order.

    Of a distribution that is installed twice the one that comes first counts, as it does when it is imported. After
    "Entry points specification" and "Recording installed projects" (Python Packaging User Guide).
    """
    folders = sys.path if path is None else path
    if any(os.path.isfile(folder) for folder in folders):
        return _by_the_library(folders)
    found: dict[str, str] = {}
    for owner, folder in _distributions(folders):
        if owner not in found:
            found[owner] = _text(folder)
    return [Point(name, value, owner) for owner, text in found.items() for name, value in _stated(text)]


def _distributions(folders: Iterable[str]) -> Iterator[tuple[str, str]]:
    for folder in folders:
        with suppress(OSError):
            for name in os.listdir(folder or "."):
                stem, suffix = os.path.splitext(name)
                if suffix in (".dist-info", ".egg-info"):
                    yield _normal(stem.partition("-")[0]), os.path.join(folder, name)


def _normal(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def _text(folder: str) -> str:
    with (
        suppress(OSError, ValueError),
        open(os.path.join(folder, "entry_points.txt"), encoding="utf-8") as file,
    ):
        return file.read()
    return ""


def _stated(text: str) -> Iterator[tuple[str, str]]:
    group = ""
    for line in map(str.strip, text.splitlines()):
        if line.startswith("["):
            group = line.strip("[]")
        elif group == GROUP and "=" in line and not line.startswith("#"):
            name, value = line.split("=", 1)
            yield name.strip(), value.strip()


def _by_the_library(folders: Sequence[str]) -> list[Point]:
    from importlib.metadata import distributions

    first = {_normal(found.name): found for found in reversed(list(distributions(path=list(folders))))}
    return [
        Point(point.name, point.value, owner)
        for owner, found in first.items()
        for point in found.entry_points
        if point.group == GROUP
    ]
