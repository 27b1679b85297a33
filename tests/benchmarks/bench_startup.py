"""What the whole process costs before and around the work: processor time, as ratios in one run.

Run: python tests/benchmarks/bench_startup.py

``--help`` is held against bare Python, ``check`` of the demo against ``import numpy``. Modules are compiled before, as an
installed program's are. The runs of all commands take turns, so that a busy moment falls on all alike; the least of each counts.
"""

from __future__ import annotations

import compileall
import os
import resource
import subprocess
import sys
from pathlib import Path

import numpy as np

import notchwork
import notchwork_plugins
import notchwork_schemas

TIMES = 15

DEMO = Path(notchwork.__file__).parent / "demo" / "sound.pattern.json"

COMMANDS = {
    "bare Python": ["-c", "pass"],
    "notchwork --help": ["-m", "notchwork", "--help"],
    "import numpy": ["-c", "import numpy"],
    "notchwork check": ["-m", "notchwork", "check", str(DEMO)],
}


def seconds(arguments: list[str]) -> float:
    """The processor time, user and system, of one process."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    for package in (notchwork, notchwork_plugins, notchwork_schemas, np):
        compileall.compile_dir(os.path.dirname(str(package.__file__)), quiet=2)
    least = dict.fromkeys(COMMANDS, float("inf"))
    for _ in range(TIMES):
        for name, arguments in COMMANDS.items():
            least[name] = min(least[name], seconds(arguments))
    for name, taken in least.items():
        print(f"{name:17} {1000 * taken:6.0f} ms")
    for name, against, goal in (
        ("notchwork --help", "bare Python", 6),
        ("notchwork check", "import numpy", 4),
    ):
        print(f"{name} / {against}: {least[name] / least[against]:.2f} (goal: at most {goal})")


if __name__ == "__main__":
    main()
