from __future__ import annotations

import subprocess
import sys

SCRIPT = """
import sys
import notchwork.geometry as g
loaded = {"pyclipr", "scipy", "shapely", "svgpathtools"} & set(sys.modules)
g.offset_outline(list(g.lines([0, 9, 9j], closed=True)[:, None]), [1, 1, 1])
without = "pyclipr" in sys.modules
g.offset_outline(list(g.lines([0, 9, 9 + 9j, 5 + 9j, 5 + 5j, 4 + 9j, 9j], closed=True)[:, None]), [1] * 7)
print(sorted(loaded), without, "pyclipr" in sys.modules)
"""


def test_the_clipper_is_loaded_by_the_first_cut_line_that_crosses_itself_only():
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[] False True"
