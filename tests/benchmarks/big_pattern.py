"""A large pattern for benchmarks: panels of three cubics an edge, in many sizes, sewn side to side."""

from __future__ import annotations

from typing import Any


def panels(pieces: int, sizes: int) -> dict[str, Any]:
    """A document with ``pieces`` curved panels in ``sizes`` sizes and 1.5 seams a piece.

    Every panel is like its neighbour, so that every seam fits; each has four edges of three cubics, notches and grades.
    """
    names = [f"s{k}" for k in range(sizes)]
    base = names[sizes // 2]

    def steps(dx: float, dy: float) -> dict[str, list[float]]:
        middle = sizes // 2
        return {name: [dx * (k - middle), dy * (k - middle)] for k, name in enumerate(names) if name != base}

    panel = {
        "allowance": 12,
        "outline": _outline(),
        "edges": {
            "top": {"finish": {"kind": "casing", "depth": 15, "turns": 2}},
            "hem": {"finish": {"kind": "hem", "depth": 12, "turns": 2}},
        },
        "notches": {
            "left_notch": {"edge": "left", "at": ["top", 150]},
            "right_notch": {"edge": "right", "at": ["top", 150]},
        },
        "grainline": [[100, 100], [100, 400]],
        "cut": [{"material": "cloth", "count": 2, "mirrored": True}],
    }
    ids = [f"panel_{k}" for k in range(pieces)]
    seams = {
        f"seam_{k}": {
            "sides": [[{"edge": f"{a}.right", "from": "top"}], [{"edge": f"{b}.left", "from": "top"}]]
        }
        for k, (a, b) in enumerate(zip(ids, ids[1:] + ids[:1], strict=True))
    }
    return {
        "notchwork": "1.0",
        "title": "Many panels",
        "sizes": {"names": names, "base": base, "ordered": True},
        "grade_rules": {"out": steps(3, 0), "down": steps(3, -4), "low": steps(0, -4)},
        "materials": {"cloth": {"width": 1400}},
        "pieces": dict.fromkeys(ids, panel),
        "seams": seams,
    }


def _outline() -> list[dict[str, Any]]:
    """A panel whose left and right edges are each other's mirror image, drawn clockwise."""

    def wave(x: float, way: float, up: bool) -> list[dict[str, Any]]:
        ys = [0, 180, 360, 540] if up else [540, 360, 180, 0]
        bulge = [0, 12, -6, 0]
        nodes = []
        for k, y in enumerate(ys):
            at = x + way * bulge[k if up else 3 - k]
            step = 60 if up else -60
            nodes.append({"at": [at, y], "in": [at + way * 3, y - step], "out": [at - way * 3, y + step]})
        return nodes

    left, right = wave(0, -1, True), wave(200, 1, False)
    left[0] |= {"edge": "left", "grade": "low"}
    left[-1] |= {"edge": "top"}
    right[0] |= {"edge": "right", "grade": "out"}
    right[-1] |= {"edge": "hem", "grade": "down"}
    top = [
        {"at": [66, 546], "in": [44, 546], "out": [88, 546]},
        {"at": [133, 546], "in": [111, 546], "out": [155, 546]},
    ]
    hem = [
        {"at": [133, -6], "in": [155, -6], "out": [111, -6]},
        {"at": [66, -6], "in": [88, -6], "out": [44, -6]},
    ]
    return [*left, *top, *right, *hem]
