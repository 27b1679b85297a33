"""The house stands as its plan says."""

from __future__ import annotations

import subprocess
import sys
from importlib.metadata import entry_points
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = (ROOT / "core", ROOT / "plugins", ROOT / "schemas")

_IMPORT_EACH_ALONE = """
import importlib, os, sys
import jsonschema_rs, numpy, pluggy, pyclipr
for names in sys.argv[1:]:
    child = os.fork()
    if not child:
        try:
            for name in names.split():
                importlib.import_module(name)
        except BaseException as error:
            print(f"{name}: {type(error).__name__}: {error}", flush=True)
            os._exit(1)
        os._exit(0)
    os.waitpid(child, 0)
"""


def packages() -> list[str]:
    """Every package with its modules, in one text each."""
    found = []
    for source in SOURCES:
        for init in sorted(source.rglob("__init__.py")):
            package = ".".join(init.parent.relative_to(source).parts)
            modules = [f"{package}.{path.stem}" for path in sorted(init.parent.glob("[a-z]*.py"))]
            found.append(" ".join([package, *modules]))
    return found


@pytest.mark.skipif(sys.platform == "win32", reason="a process cannot be forked there")
def test_every_package_imports_alone() -> None:
    """Each in a process of its own that has imported nothing of the program before; a module brings its package first."""
    done = subprocess.run(
        [sys.executable, "-c", _IMPORT_EACH_ALONE, *packages()],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.stdout == ""
    assert done.stderr == ""


def test_every_plugin_folder_is_an_entry_point() -> None:
    folders = {path.parent.name for path in (ROOT / "plugins" / "notchwork_plugins").glob("*/__init__.py")}
    points = {point.name: point.value for point in entry_points(group="notchwork.plugins")}
    own = {name: value for name, value in points.items() if value.startswith("notchwork_plugins.")}
    assert own == {folder: f"notchwork_plugins.{folder}.plugin" for folder in folders}


def test_every_check_is_a_module_of_its_own_beside_its_plugin() -> None:
    from notchwork.host import registry

    for check in registry().checks:
        module = check.find.__module__
        if module.startswith("notchwork_plugins."):
            assert module.rpartition(".")[2] != "plugin", check.id


def test_every_room_has_its_place_in_the_import_contracts() -> None:
    import tomllib

    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"][
        "contracts"
    ]
    layered = {
        room
        for contract in contracts
        for layer in contract.get("layers", ())
        for room in layer.replace("(", "").replace(")", "").split(" | ")
    }
    rooms = {path.parent.name for path in (ROOT / "core" / "notchwork").glob("*/__init__.py")}
    assert rooms <= layered
