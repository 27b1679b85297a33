from __future__ import annotations

import subprocess
import sys


def test_the_room_is_light_to_enter_and_loads_the_validator_only_when_it_reads() -> None:
    program = "import sys, notchwork.document; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert "notchwork.document.read" in loaded
    assert loaded.isdisjoint({"numpy", "scipy", "jsonschema", "jsonschema_rs", "lxml", "shapely"})
