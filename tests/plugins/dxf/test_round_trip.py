"""JSON to DXF and back, each trip twice: as written nothing is lost; without the document all that is drawn comes back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
from drawn import Document, differences, small_patterns
from hypothesis import given, settings
from numpy.typing import NDArray
from patterns import CASES, nest_of

from notchwork import jobs
from notchwork.demo import example
from notchwork.document import read_pattern, write_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing
from notchwork.findings import Severity
from notchwork.formats import Source
from notchwork.geometry import points
from notchwork.model import Pattern
from notchwork.recognise.recognise import recognise
from notchwork.sewing import Nest
from notchwork_plugins.dxf import plugin

WITHIN = 0.1
"""mm, everywhere and on every length: what the open format's own files may lose on the way."""


@dataclass(frozen=True)
class Way:
    """A way to write DXF: the suffix chooses the profile."""

    suffix: str
    options: Mapping[str, str]

    @property
    def attaches(self) -> bool:
        return self.suffix != ".bare.dxf" or self.options.get("document") == "comments"


WAYS = {
    "blocks": Way(".dxf", {}),
    "rules": Way(".dxf", {"nest": "rules"}),
    "inches": Way(".dxf", {"units": "english"}),
    "bare": Way(".bare.dxf", {}),
    "bare-rules": Way(".bare.dxf", {"nest": "rules"}),
    "bare-comments": Way(".bare.dxf", {"document": "comments"}),
    "bare-comments-rules": Way(".bare.dxf", {"document": "comments", "nest": "rules"}),
    "splines": Way(".cad.dxf", {}),
    "polylines": Way(".cad.dxf", {"curves": "polylines"}),
}
WRITERS = {".dxf": plugin.write, ".bare.dxf": plugin.write_bare, ".cad.dxf": plugin.write_cad}
ATTACHING = [name for name, way in WAYS.items() if way.attaches]


@cache
def data_of(name: str) -> bytes:
    if name == "demo":
        return example("sound.pattern.json")
    return (CASES / f"{name}.pattern.json").read_bytes()


@cache
def nest_named(name: str) -> Nest:
    pattern = read_pattern(data_of(name), name).pattern
    assert pattern is not None
    return Nest(pattern)


def read_again(way: Way, drawing: Drawing) -> Drawing:
    """A drawing written, and read from its bytes."""
    files = dict(WRITERS[way.suffix](drawing, way.options).files)
    data = files.pop(way.suffix)

    def beside(suffix: str) -> Source | None:
        found = [known for known in files if known.endswith(suffix)]
        return Source(found[0], files[found[0]]) if found else None

    read = plugin.read(Source(f"test{way.suffix}", data, beside), {}).drawing
    assert read is not None
    return read


def without_document(way: Way, nest: Nest, options: Options | None = None) -> Pattern:
    drawing = read_again(way, draw_pattern(nest, options))
    assert drawing.attached is None
    return recognise(drawing).pattern


@cache
def demo_again(way: str) -> Nest:
    return Nest(without_document(WAYS[way], nest_named("demo")))


Complexes = NDArray[np.complex128]


def dense(nest: Nest, piece: str, size: int) -> Complexes:
    """Places along the stitch line (mm), closer than any bend."""
    cubics, t = nest.outline(piece, size), np.linspace(0, 1, 200)
    return points(cubics, np.repeat(np.arange(len(cubics)), 200), np.tile(t, len(cubics)))


def far(one: Complexes, other: Complexes) -> float:
    """How far (mm) the places of one lie from the closed polygon through those of the other at most, by shapely."""
    ring = shapely.LinearRing(np.stack([other.real, other.imag], axis=1))
    return float(shapely.distance(ring, shapely.points(one.real, one.imag)).max())


@pytest.mark.parametrize("way", WAYS)
def test_without_the_document_the_demo_is_drawn_the_same_in_its_three_sizes(way: str) -> None:
    nest, again = nest_named("demo"), demo_again(way)
    assert again.sizes == nest.sizes == ("S", "M", "L")
    assert differences(nest, again, WITHIN) == []
    drawn = [piece for piece in again.pattern.pieces.values() if piece.strip is None]
    assert all(set(piece.outlines or ()) == set(nest.sizes) for piece in drawn)


@pytest.mark.parametrize("way", WAYS)
def test_without_the_document_outlines_and_edges_of_the_demo_keep_within_a_tenth(way: str) -> None:
    nest, again = nest_named("demo"), demo_again(way)
    for piece, graded in nest.pieces.items():
        for size in np.flatnonzero(graded.present).tolist():
            one, other = dense(nest, piece, size), dense(again, piece, size)
            assert max(far(one, other), far(other, one)) <= WITHIN
        for edge in graded.edges:
            mine, yours = nest.line(piece, edge).length, again.line(piece, edge).length
            assert np.nanmax(np.abs(mine - yours)) <= WITHIN


@pytest.mark.parametrize("way", ["blocks", "bare-rules", "splines"])
def test_without_the_document_relations_of_the_demo_are_gone_and_that_is_told(
    way: str, tmp_path: Path
) -> None:
    nest, written = nest_named("demo"), WAYS[way]
    again = demo_again(way).pattern
    # A plain drawing says in its letters and on its edges what is sewn; the convention has no place for that.
    assert nest.pattern.seams
    assert nest.pattern.openings
    assert again.seams == (nest.pattern.seams if way == "splines" else {})
    assert again.openings == (nest.pattern.openings if way == "splines" else {})
    assert not again.notions
    files = WRITERS[written.suffix](draw_pattern(nest), written.options).files
    for suffix, data in files.items():
        (tmp_path / f"demo{suffix}").write_bytes(data)
    verdict = jobs.check(jobs.load(tmp_path / f"demo{written.suffix}"))
    loud = {finding.rule.id for finding in verdict.findings if finding.severity > Severity.INFO}
    # Of a file of the convention nobody can tell whether there ever was a document.
    if written.suffix == ".cad.dxf":
        assert loud == {"recognised/document-gone"}
    else:
        assert loud == {"seams/none-stated"}


def converted(name: str, way: Way, folder: Path, drawing: Options | None = None) -> jobs.Loaded:
    """A pattern written to a file with the document in it, and read from there."""
    source = folder / "garment.pattern.json"
    source.write_bytes(data_of(name))
    jobs.convert(source, folder / f"written{way.suffix}", options=way.options, drawing=drawing)
    return jobs.load(folder / f"written{way.suffix}")


def loud(loaded: jobs.Loaded) -> list[tuple[str, Severity]]:
    found = jobs.check(loaded).findings
    return sorted((one.rule.id, one.severity) for one in found if one.severity > Severity.INFO)


GARMENTS = ("two_panel_skirt", "sound/trousers", "sound/circle_skirt")


@pytest.mark.parametrize(
    ("name", "way"),
    [
        *((name, way) for name in ("demo", "ferry_smock", "every_key") for way in ATTACHING),
        *((name, way) for name in GARMENTS for way in ("blocks", "splines")),
    ],
)
def test_as_written_the_same_document_comes_back_and_the_same_verdict(
    name: str, way: str, tmp_path: Path
) -> None:
    loaded = converted(name, WAYS[way], tmp_path)
    assert write_pattern(loaded.sound()) == write_pattern(nest_named(name).pattern)
    before = jobs.load(data_of(name), "garment.pattern.json")
    assert jobs.check(loaded).sews_together == jobs.check(before).sews_together
    assert loud(loaded) == loud(before)


CHOSEN = {
    "no-allowance": Options(allowances=False),
    "one-size": Options(sizes=("M",)),
    "two-sizes": Options(sizes=("S", "L")),
    "two-pieces": Options(pieces=("front", "sleeve")),
}


@pytest.mark.parametrize("way", ["blocks", "rules", "bare-comments", "splines", "polylines"])
@pytest.mark.parametrize("chosen", CHOSEN)
def test_whatever_was_chosen_to_be_drawn_the_whole_document_comes_back(
    chosen: str, way: str, tmp_path: Path
) -> None:
    loaded = converted("ferry_smock", WAYS[way], tmp_path, CHOSEN[chosen])
    assert write_pattern(loaded.sound()) == write_pattern(nest_named("ferry_smock").pattern)


@pytest.mark.parametrize("way", ["blocks", "rules", "bare-comments", "splines"])
@pytest.mark.parametrize("name", ["ferry_smock", "every_key", "sound/circle_skirt"])
def test_pieces_that_are_drawn_whole_are_the_documents_halves(name: str, way: str, tmp_path: Path) -> None:
    loaded = converted(name, WAYS[way], tmp_path, Options(unfolded=True))
    assert write_pattern(loaded.sound()) == write_pattern(nest_named(name).pattern)


def test_a_piece_that_is_drawn_whole_and_edited_is_taken_as_it_is_drawn(tmp_path: Path) -> None:
    """A general program, here ezdxf, moves one notch of a smock's front by 3 mm."""
    converted("ferry_smock", WAYS["blocks"], tmp_path, Options(unfolded=True))
    path = tmp_path / "written.dxf"
    file = ezdxf.readfile(path)
    notch = file.blocks.get("FRONT-M").query('POINT[layer=="4"]')[0]
    notch.translate(0, 3, 0)
    file.saveas(path)
    loaded = jobs.load(path)
    told = [f.place.piece for f in loaded.findings if f.rule.id == "recognised/drawn-anew"]
    assert set(told) == {"front"}
    assert loaded.sound().pieces["back"] == nest_named("ferry_smock").pattern.pieces["back"]


DRAWN = (
    "ferry_smock",
    "every_key",
    "sound/shirt",
    "sound/circle_skirt",
    "sound/round_cushion",
    "sound/pleated_apron",
    "sound/lined_bodice",
    "sound/tunic_drawn_whole",
    "sound/waistcoat",
)


@pytest.mark.parametrize("way", ["blocks", "bare-rules", "polylines"])
@pytest.mark.parametrize("name", DRAWN)
def test_garments_come_back_without_the_document(name: str, way: str) -> None:
    nest = nest_named(name)
    assert differences(nest, Nest(without_document(WAYS[way], nest)), WITHIN) == []


@pytest.mark.parametrize("way", ["blocks", "rules", "splines", "polylines"])
@settings(max_examples=8, deadline=None)
@given(small_patterns())
def test_any_pattern_comes_back_without_the_document(way: str, document: Document) -> None:
    nest = nest_of(document)
    assert differences(nest, Nest(without_document(WAYS[way], nest)), WITHIN) == []
