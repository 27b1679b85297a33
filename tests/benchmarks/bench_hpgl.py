"""Plots: how far the pen travels against the order of the drawing, and the time against drawing the pattern.

Run: python tests/benchmarks/bench_hpgl.py
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))
from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.pages import Paper
from notchwork.pages.arrange import shape_of
from notchwork.sewing import Nest
from notchwork_plugins.hpgl.frames import framed
from notchwork_plugins.hpgl.write import write_pages

ROUNDS = 3


def once(work: Callable[[], Any]) -> float:
    """The least of a few times, in seconds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


CELLS = {
    "roll-36in": (904.4, 1638.35),
    "pen-a0": (811.0, 1159.0),
    "cutter-600": (590.0, 1638.35),
    "pen-a4": (193.0, 276.0),
}
"""mm across and along that a frame of each device has."""


def main() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    for title, sizes in (("one size", ("M",)), ("three sizes", None)):
        draw = partial(draw_pattern, Nest(pattern), Options(sizes=sizes))
        drawing = draw()
        bare = [("", (), shape_of(group)) for group in drawing.groups]
        drawn = once(draw)
        for device, (across, along) in CELLS.items():
            laid = once(lambda bare=bare, a=across, b=along: list(framed(bare, a, b, "free", "none")))
            write = partial(write_pages, drawing, Paper(), {"device": device})
            told = next(finding.values for finding in write().findings if finding.rule.id == "hpgl/plotted")
            before, after = (float(str(told[key])) for key in ("before", "after"))
            print(
                f"{title:<12}{device:<12}travel {after:6.1f} m; in the order of the drawing {before:6.1f} m, "
                f"{before / after:.2f} times as far. All but laying out takes {(once(write) - laid) / drawn:.1f} times as "
                "long as drawing the pattern"
            )


if __name__ == "__main__":
    main()
