"""How long it takes to load and validate a 5 MB document, against jsonschema over the whole of it, in one run.

Run: python tests/benchmarks/bench_document.py
"""

from __future__ import annotations

import json
import math
import random
import time
from collections.abc import Callable
from typing import Any

import jsonschema
from big_pattern import panels

from notchwork.document import UnreadableDocument, read_pattern, write_pattern
from notchwork_schemas import schema_text

PIECES, SIZES, SEED = 40, 10, 7


def seconds(work: Callable[[], object], times: int = 3) -> float:
    """The best of several runs, in seconds of this process alone: the machine may be shared."""
    best = float("inf")
    for _ in range(times):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best


def drawn_for_each_size(megabytes: float) -> bytes:
    """A document of pieces whose outlines are given for every size: mostly nodes, as large documents are."""
    noise = random.Random(SEED)
    names = [str(34 + 2 * k) for k in range(SIZES)]
    nodes = int(megabytes * 1e6 / (PIECES * SIZES * 92)) // 4 * 4
    pieces = {
        f"piece_{k}": {
            "allowance": 10,
            "outlines": {name: _outline(nodes, 200 + 5 * size, noise) for size, name in enumerate(names)},
            "notches": {"notch": {"edge": "a", "at": ["b", 30]}},
            "cut": [{"material": "cloth", "count": 2, "mirrored": True}],
        }
        for k in range(PIECES)
    }
    seams = {f"seam_{k}": {"sides": [[f"piece_{k}.a"], [f"piece_{k + 1}.c"]]} for k in range(PIECES - 1)}
    document = {
        "notchwork": "1.0",
        "sizes": {"names": names, "base": names[0]},
        "materials": {"cloth": {}},
        "pieces": pieces,
        "seams": seams,
    }
    return json.dumps(document).encode()


def _outline(count: int, radius: float, noise: random.Random) -> list[dict[str, Any]]:
    def point(angle: float, scale: float = 1.0) -> list[float]:
        return [
            round(scale * radius * part + noise.random(), 4) for part in (math.cos(angle), math.sin(angle))
        ]

    step = 2 * math.pi / count
    nodes = [
        {"at": point(k * step), "in": point((k - 1 / 3) * step, 1.02), "out": point((k + 1 / 3) * step, 1.02)}
        for k in range(count)
    ]
    return [
        node | {"edge": "abcd"[k // (count // 4)]} if k % (count // 4) == 0 else node
        for k, node in enumerate(nodes)
    ]


def against_jsonschema(name: str, data: bytes) -> None:
    result = read_pattern(data, name)
    assert result.pattern is not None, result.faults[:3]
    loading = seconds(lambda: json.loads(data))
    ours = seconds(lambda: read_pattern(data, name))
    writing = seconds(lambda: write_pattern(result.pattern), 1)  # type: ignore[arg-type]
    document = json.loads(data)
    validator = jsonschema.Draft202012Validator(json.loads(schema_text("pattern-1")))
    theirs = seconds(lambda: list(validator.iter_errors(document)), 1)
    print(
        f"{name}, {len(data) / 1e6:.1f} MB: json.loads {loading:.2f} s; read and judged {ours:.2f} s; jsonschema {theirs:.2f} s; "
        f"ratio 1/{theirs / ours:.0f} (goal: at most 1/10); written {writing:.2f} s"
    )


def refused(name: str, data: bytes) -> None:
    def read() -> None:
        try:
            read_pattern(data, name)
        except UnreadableDocument:
            return
        raise AssertionError(f"{name} was read")

    print(f"{name}, {len(data) / 1e6:.1f} MB: refused in {1000 * seconds(read):.1f} ms")


def with_a_fault(data: bytes) -> None:
    document = json.loads(data)
    document["pieces"]["piece_7"]["allowence"] = 3
    faulty = json.dumps(document).encode()
    taken = seconds(lambda: [read_pattern(faulty, "x").locate("/pieces/piece_7/allowence")])
    print(f"the same with one fault, which is told with its line: {taken:.2f} s")


def main() -> None:
    large = drawn_for_each_size(5)
    against_jsonschema("outlines by size", large)
    with_a_fault(large)
    against_jsonschema("graded panels", json.dumps(panels(1000, 10)).encode())
    refused("100,000 levels", b"[" * 100_000)
    refused("100,000 levels, closed", b'{"a":' * 100_000 + b"1" + b"}" * 100_000)
    refused("200 MB", b" " * (200 * 2**20))


if __name__ == "__main__":
    main()
