from __future__ import annotations

import subprocess
import sys

SCRIPT = """
import sys
import notchwork.geometry as g
loaded = {"pyclipr", "scipy", "shapely", "svgpathtools"} & set(sys.modules)
g.offset_outline(list(g.lines([0, 9, 9j], closed=True)[:, None]), [1, 1, 1])
print(sorted(loaded), "pyclipr" in sys.modules)
"""


def test_the_clipper_is_loaded_by_the_first_offset_only():
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[] True"
