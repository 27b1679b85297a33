"""Finding shapes in drawings without meanings: growth with the number of strokes.

Run: python tests/benchmarks/bench_recognise.py
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent))
from sketches import box, drawing, polyline, words

from notchwork.drawing import Drawing, Stroke, Text
from notchwork.recognise import find_shapes


def panels(count: int) -> Drawing:
    """Panels with allowance bands, a patch, a curve in open strokes beside each, a dimension and words: 14 strokes each."""
    strokes: list[Stroke] = []
    texts: list[Text] = []
    across = int(np.ceil(np.sqrt(count)))
    for k in range(count):
        x, y = 500.0 * (k % across), 400.0 * (k // across)
        strokes += [
            box(x, y, 200, 120, "#d4aa00"),
            box(x - 10, y - 10, 220, 10, "#806600"),
            box(x - 10, y + 120, 220, 10, "#806600"),
            box(x - 10, y, 10, 120, "#806600"),
            box(x + 200, y, 10, 120, "#806600"),
            box(x + 40, y + 30, 60, 40, "#444488"),
            polyline(complex(x, y - 40), complex(x, y - 32)),
            polyline(complex(x + 200, y - 40), complex(x + 200, y - 32)),
            polyline(complex(x + 4, y - 36), complex(x + 196, y - 36)),
        ]
        a = complex(x + 260, y)
        bow = np.array([[a, a + 40j - 30, a + 80j - 30, a + 120j]])
        strokes += [
            Stroke(bow),
            polyline(a + 120j, a + 160 + 120j),
            polyline(a + 160 + 120j, a + 160),
            polyline(a + 160, a),
            polyline(a + 80, a + 80 + 120j),
        ]
        texts += [words(x + 90, y - 38, "200mm"), words(x + 60, y + 80, f"panel {k}")]
    return drawing(*strokes, texts=texts)


def main() -> None:
    before = None
    for count in (10, 20, 40, 80, 160):
        made = panels(count)
        best = float("inf")
        for _ in range(3):
            start = time.process_time()
            seen = find_shapes(made)
            best = min(best, time.process_time() - start)
        assert len(seen.shapes) == 3 * count
        growth = "" if before is None else f", {best / before:.2f} times the half"
        print(f"{14 * count} strokes: {best:.3f} s{growth}")
        before = best


if __name__ == "__main__":
    main()
