"""Writing the convention, against building and saving the same entities with ezdxf; and how both grow.

Run: python tests/benchmarks/bench_dxf_write.py
"""

from __future__ import annotations

import io
import json
import sys
import time
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any

import ezdxf

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1]))
from big_pattern import panels
from patterns import case

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.sewing import Nest
from notchwork_plugins.dxf.write.convention import write_valid

ROUNDS = 3
Attributes = Mapping[str, Any]


def held(data: bytes) -> dict[str, list[tuple[str, Attributes, list[tuple[float, float]], list[str]]]]:
    """Every entity of a written file by block: its kind, attributes, vertices and strings of extended data."""
    doc = ezdxf.read(io.StringIO(data.decode("ascii"), newline=None))
    found = {}
    for block in doc.blocks:
        entities = []
        for entity in block:
            attributes = entity.dxfattribs()
            for key in ("handle", "owner", "paperspace"):
                attributes.pop(key, None)
            vertices = (
                [v.dxf.location.vec2 for v in entity.vertices] if entity.dxftype() == "POLYLINE" else []
            )
            strings = (
                [tag.value for tag in entity.get_xdata("NOTCHWORK")] if entity.has_xdata("NOTCHWORK") else []
            )
            entities.append((entity.dxftype(), attributes, vertices, strings))
        found[block.name] = entities
    return found


def by_ezdxf(blocks: dict[str, list[tuple[str, Attributes, list[tuple[float, float]], list[str]]]]) -> int:
    """The same entities built and saved; how many letters that makes."""
    doc = ezdxf.new("R12", units=0)
    doc.appids.add("NOTCHWORK")
    for name, entities in blocks.items():
        layout = (
            doc.modelspace() if name == "*Model_Space" else doc.blocks.new(name) if name[0] != "*" else None
        )
        if layout is None:
            continue
        for kind, attributes, vertices, strings in entities:
            if kind == "POLYLINE":
                line = layout.add_polyline2d(vertices, dxfattribs={"layer": attributes["layer"]})
                line.close(bool(attributes.get("flags", 0) & 1))
            else:
                entity = layout.new_entity(kind, attributes)
                if strings:
                    entity.set_xdata(
                        "NOTCHWORK", [(1000, string) for string in strings if string != "NOTCHWORK"]
                    )
    out = io.StringIO()
    doc.write(out)
    return len(out.getvalue())


def best(do: Callable[[], object]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        do()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    documents = [
        ("smock", json.dumps(case("ferry_smock")).encode()),
        ("demo", example("sound.pattern.json")),
        *((f"{count} panels in 10 sizes", json.dumps(panels(count, 10)).encode()) for count in (5, 20)),
    ]
    for name, document in documents:
        pattern = read_pattern(document, name).pattern
        assert pattern is not None
        drawing = draw_pattern(Nest(pattern))
        for nest in ("blocks", "rules"):
            options = {"nest": nest}
            files = write_valid(drawing, options).files
            blocks = held(files[".dxf"])
            count = sum(len(entities) for entities in blocks.values())
            ours = best(partial(write_valid, drawing, options))
            theirs = best(partial(by_ezdxf, blocks))
            print(
                f"{name}, {nest}: {count} entities, {len(files['.dxf']) / 1e6:.2f} MB in {ours:.3f} s; ezdxf {theirs:.3f} s: "
                f"{ours / theirs:.2f}"
            )


if __name__ == "__main__":
    main()
