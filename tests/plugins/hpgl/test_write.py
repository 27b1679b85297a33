"""Whole plots, read again by a reader of their own: what is drawn is what was meant, within half a step."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from hpgl_read import Page, Plot, read
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from patterns import nest_of

from notchwork.demo import example
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Group, Stroke, Text
from notchwork.formats import Written
from notchwork.geometry import flatten, lines
from notchwork.pages import Paper, Turn, papers
from notchwork.sewing import Nest
from notchwork_plugins.hpgl.nicks import nicks
from notchwork_plugins.hpgl.write import write_pages

Complexes = NDArray[np.complex128]
DEMO: dict[str, Any] = json.loads(example("sound.pattern.json"))
LIMIT = 32_767


@cache
def drawing_of(options: Options | None = None) -> Drawing:
    return draw_pattern(demo(), options)


@cache
def demo() -> Nest:
    return nest_of(DEMO)


def plotted(
    drawing: Drawing, device: str, paper: Paper | None = None, **options: str
) -> tuple[Written, list[Plot]]:
    written = write_pages(drawing, paper or Paper(turn="drawn"), {"device": device, **options})
    return written, [read(data.decode("ascii")) for data in written.files.values()]


def told(written: Written) -> set[str]:
    return {finding.rule.id for finding in written.findings}


def piece(wide: float, tall: float, *more: Stroke, texts: Sequence[Text] = (), name: str = "Back") -> Drawing:
    outline = lines(np.array([0, wide, wide + 1j * tall, 1j * tall]), closed=True)
    group = Group(
        name, (Stroke(outline, "cut", True), *more), texts=tuple(texts), facts={"piece": "back", "name": name}
    )
    return Drawing((group,))


def net(some: Sequence[Complexes]) -> shapely.Geometry:
    return shapely.MultiLineString([np.column_stack([z.real, z.imag]) for z in some if len(z) > 1])


def cut_lines(drawing: Drawing, name: str) -> list[Complexes]:
    (group,) = (group for group in drawing.groups if group.name == name)
    runs = [flatten(s.cubics, 0.001).points for s in group.strokes if s.meaning in ("cut", "notch")]
    return [-1j * run for run in runs]  # x runs along the paper


def low(some: Sequence[Complexes]) -> complex:
    z = np.concatenate(some)
    return complex(z.real.min(), z.imag.min())


@pytest.mark.parametrize("size", ["S", "M", "L"])
@pytest.mark.parametrize("device", ["roll-36in", "cutter-600", "pen-a0"])
def test_the_outlines_of_the_demo_come_back(size: str, device: str, tmp_path: Path) -> None:
    """Chords lie within 0.01 mm, points within half a step each way: 0.0177 mm, or 0.0354 where steps are doubled."""
    profile = tmp_path / "two-pens.toml"
    found = Path(__file__).parents[3] / "plugins/notchwork_plugins/hpgl/devices" / f"{device}.toml"
    text = found.read_text(encoding="utf-8").replace("draw = 1", "draw = 2").replace("knife = true", "")
    profile.write_text(text, encoding="utf-8")
    whole = drawing_of(Options(sizes=(size,)))
    compared = 0
    for name in DEMO["pieces"]:
        drawing = replace(whole, groups=tuple(group for group in whole.groups if group.name == name))
        _, (plot,) = plotted(drawing, str(profile))
        if len(plot.pages) == 1:
            compared += 1
            step = 0.05 if any(command == "SC" for command, _ in plot.commands) else 0.025
            meant = cut_lines(drawing, name)
            drawn = plot.pages[0].of(1)
            meant = [run - low(meant) + low(drawn) for run in meant]
            # The lowest corner itself is rounded, and with it everything is moved.
            assert shapely.hausdorff_distance(net(drawn), net(meant)) < 0.01 + 2 * step * np.sqrt(0.5)
    assert compared >= 10


@pytest.mark.parametrize("device", ["pen-a4", "pen-a3", "pen-a0", "roll-36in", "cutter-600", "knife-600"])
def test_no_number_is_beyond_what_the_device_takes(device: str) -> None:
    """A device that clamps every number to ±32,767 draws the same (HP PCL 5 Technical Reference Manual, part II, p. 17-11)."""
    written, plots = plotted(drawing_of(Options(sizes=("M",))), device, Paper(turn="quarter"))
    for data, plot in zip(written.files.values(), plots, strict=True):
        assert max(map(abs, plot.numbers)) <= LIMIT
        text = data.decode("ascii")
        for number in re.findall(r"-?\d+(?:\.\d+)?", re.sub(r"LB.*?\x03", "", text)):
            assert abs(float(number)) <= LIMIT
        assert not re.search(r"\d[eE][-+]?\d", text)
        clamped = read(text, clamp=LIMIT)
        assert all(
            np.array_equal(p, q)
            for a, b in zip(plot.pages, clamped.pages, strict=True)
            for (_, p), (_, q) in zip(a.lines, b.lines, strict=True)
        )


@pytest.mark.parametrize("device", ["pen-a4", "pen-a0"])
def test_nothing_is_drawn_beyond_what_the_device_reaches(device: str) -> None:
    """The small plotter's documented limits are 11040 × 7721 units from the lower left; the large one counts from its centre."""
    reach = {"pen-a4": (0, 11040 * 0.025, 0, 7721 * 0.025), "pen-a0": (-579.5, 579.5, -405.5, 405.5)}[device]
    for plot in plotted(drawing_of(Options(sizes=("M",))), device, Paper())[1]:
        z = np.concatenate([line for page in plot.pages for _, line in page.lines])
        assert reach[0] - 0.013 <= z.real.min()
        assert z.real.max() <= reach[1] + 0.013
        assert reach[2] - 0.013 <= z.imag.min()
        assert z.imag.max() <= reach[3] + 0.013


@pytest.mark.parametrize(
    ("long", "scaled", "pages"),
    [(800, False, 1), (819, False, 1), (821, True, 1), (1635, True, 1), (1640, False, 3)],
)
def test_beyond_819_mm_numbers_are_scaled_and_beyond_1638_frames_begin(
    long: float, scaled: bool, pages: int
) -> None:
    written, (plot,) = plotted(piece(200, long - 3), "roll-36in")
    assert len(plot.pages) == pages
    assert any(command == "SC" for command, _ in plot.commands) == scaled
    assert ("hpgl/beyond-limit" in told(written)) == scaled
    assert ("hpgl/in-parts" in told(written)) == (pages > 1)
    if pages == 1:
        z = np.concatenate([line for _, line in plot.pages[0].lines])
        assert np.ptp(z.real) == pytest.approx(long - 3, abs=0.05)


@pytest.mark.parametrize("largest", [4001, 9999, 16001])
def test_the_corners_of_the_scaling_are_numbers_that_the_device_takes(largest: int, tmp_path: Path) -> None:
    """IP counts in plotter units, and what stands at its corner is as far from the origin as SC says."""
    profile = tmp_path / "small.toml"
    profile.write_text(
        f'title = "small numbers"\nsource = "made up"\nlanguage = "HP-GL"\nalong = "roll"\nacross = 580\nlargest = {largest}\n'
        'advance = "PG"\n[pens]\ncut = 1\ndraw = 2\n',
        encoding="utf-8",
    )
    _, (plot,) = plotted(piece(60, largest * 0.03), str(profile))
    assert max(map(abs, plot.numbers)) <= largest
    said = {command: numbers for command, numbers in plot.commands if command in ("IP", "SC")}
    assert said["IP"][2:] == (2 * said["SC"][1], 2 * said["SC"][3])
    z = np.concatenate([line for _, line in plot.pages[0].lines])
    assert np.ptp(z.real) == pytest.approx(largest * 0.03, abs=0.05)


def test_the_size_of_the_plot_is_stated_only_where_the_device_takes_it() -> None:
    """PS counts in plotter units whatever the scaling, and is a number like any other."""
    for long, stated in ((500, True), (900, False)):
        _, (plot,) = plotted(piece(200, long), "roll-36in")
        sizes = [numbers for command, numbers in plot.commands if command == "PS"]
        assert sizes == ([(long / 0.025, 200 / 0.025)] if stated else [])


def crosses(page: Page) -> list[complex]:
    """The middles of the match marks: two strokes of 8 mm that cross at right angles."""
    arms = [z for _, z in page.lines if len(z) == 2 and abs(abs(z[1] - z[0]) - 8.0) < 0.1]
    return [
        complex(a.mean())
        for a in arms
        for b in arms
        if abs(a.mean() - b.mean()) < 0.1 and abs((a[1] - a[0]).real) > 7 and abs((b[1] - b[0]).imag) > 7
    ]


@pytest.mark.parametrize("device", ["pen-a4", "roll-36in", "pen-a0"])
@given(wide=st.floats(80, 1000), tall=st.floats(1700, 3600))
@settings(max_examples=8, deadline=None)
def test_parts_are_joined_by_their_crosses(device: str, wide: float, tall: float) -> None:
    """Each part is laid by its crosses on the grid that its label names; then the outline is whole."""
    drawing = piece(wide, tall)
    _, plots = plotted(drawing, device, text="labels")
    pages = [page for plot in plots for page in plot.pages]
    assert len(pages) > 1
    joined: list[Complexes] = []
    for k, page in enumerate(pages, 1):
        ((_, label),) = page.labels
        found = re.fullmatch(r"Back, part (\d+) of (\d+)(?: \(row (\d+) from below, column (\d+)\))?", label)
        assert found is not None
        assert [int(n) for n in found.groups()[:2]] == [k, len(pages)]
        at = np.array(crosses(page))
        assert len(at) == 4
        corner, step = complex(at.real.min(), at.imag.max()), complex(np.ptp(at.real), np.ptp(at.imag))
        across, along = (int(found[4] or 1), int(found[3] or 1)) if found[3] else (1, k)
        place = complex((along - 1) * step.real, -(across - 1) * step.imag)
        arms = {id(z) for _, z in page.lines if len(z) == 2 and np.min(np.abs(at - z.mean())) < 0.1}
        joined += [z - corner + place for _, z in page.lines if id(z) not in arms]
    # Shapes reach a little beyond what is drawn, so that the piece begins as far inside its first part.
    outline = shapely.Polygon([(0, 0), (tall, 0), (tall, -wide), (0, -wide)]).exterior
    z = np.concatenate(joined)
    moved = [part - complex(z.real.min(), z.imag.max()) for part in joined]
    assert shapely.hausdorff_distance(net(moved), outline.segmentize(5)) < 0.15
    assert sum(float(np.abs(np.diff(part)).sum()) for part in joined) == pytest.approx(
        2 * (wide + tall), abs=1.0
    )


def test_a_knife_marks_first_then_cuts_inside_then_outlines() -> None:
    """Inside before outlines, so that the sheet still holds what is cut (common practice, no source)."""
    hole = Stroke(
        lines(np.array([20 + 20j, 40 + 20j, 40 + 40j]), closed=True), "cut", True, {"kind": "cutout"}
    )
    notch = Stroke(lines(np.array([13 + 50j, 4 + 50j])), "notch", facts={"depth": 6.0})
    seam = Stroke(lines(np.array([10 + 10j, 10 + 140j])), "stitch")
    drawing = piece(100, 150, hole, notch, seam, texts=[Text(50 + 50j, "Back", 10.0)])
    _, (plot,) = plotted(drawing, "cutter-600")
    pens = [pen for pen, _ in plot.pages[0].lines]
    assert pens == sorted(pens, reverse=True)  # 2 draws, 1 cuts
    cuts = [float(np.abs(np.diff(line)).sum()) for line in plot.pages[0].of(1)]
    assert cuts[-1] == pytest.approx(500, abs=0.1)
    assert sorted(round(length) for length in cuts[:-1]) == [4, 68]


@pytest.mark.parametrize("allowances", [True, False])
def test_the_waist_of_a_whole_circle_is_cut_before_its_hem(allowances: bool, tmp_path: Path) -> None:
    """A quarter on two folds, opened: the ring inside is cut while the sheet still holds the piece (common practice, no source)."""
    path = Path(__file__).parents[2] / "cases/sound/circle_skirt.pattern.json"
    nest = nest_of(json.loads(path.read_text(encoding="utf-8")))
    drawing = draw_pattern(nest, Options(pieces=("skirt",), unfolded=True, allowances=allowances))
    _, (plot,) = plotted(drawing, wide_knife(tmp_path))
    rings = [shapely.Polygon(pairs(z)) for z in plot.pages[0].of(1) if len(z) > 50]
    assert len(rings) == 2
    assert rings[1].contains(rings[0])


def test_a_knife_never_cuts_into_a_seam_for_a_notch() -> None:
    """A notch is a nick of 3 to 6 mm in the allowance (common practice, no source); no cut comes nearer to a seam than half
    the allowance there."""
    whole = drawing_of(Options(sizes=("M",)))
    seen = 0
    for group in (group for group in whole.groups if "piece" in group.facts):
        seams = {
            s.facts["edge"]: sampled(s) for s in group.strokes if s.meaning == "stitch" and "edge" in s.facts
        }
        notches = [stroke for stroke in group.strokes if stroke.meaning == "notch"]
        found = list(nicks(group))
        seen += len(found)
        assert len(found) == sum(float(seam_width(group, str(n.facts["edge"]))) >= 1.0 for n in notches)
        for nick in found:
            for edge, seam in seams.items():
                away = shapely.LineString(pairs(nick)).distance(shapely.LineString(pairs(seam)))
                assert away >= 0.5 * min(seam_width(group, str(edge)), 8.0) - 0.05
            edge_of_cloth = net(cut_lines_upright(group))
            assert shapely.Point(nick[0].real, nick[0].imag).distance(edge_of_cloth) < 0.03
            assert abs(nick[1] - nick[0]) <= 4.0 + 1e-9
    assert seen >= 25


def seam_width(group: Group, edge: str) -> float:
    return next(
        float(s.facts["width"]) for s in group.strokes if s.facts.get("edge") == edge and "width" in s.facts
    )


def sampled(stroke: Stroke) -> Complexes:
    return flatten(stroke.cubics, 0.001).points


def pairs(z: Complexes) -> NDArray[np.float64]:
    return np.column_stack([z.real, z.imag])


def cut_lines_upright(group: Group) -> list[Complexes]:
    runs = [(sampled(s), s.closed) for s in group.strokes if s.meaning == "cut"]
    return [np.append(run, run[0]) if closed else run for run, closed in runs]


@pytest.mark.parametrize("text", ["strokes", "labels"])
def test_a_long_name_of_a_part_stays_between_its_marks(text: str) -> None:
    _, plots = plotted(piece(180, 800, name="Overlong name " * 20), "pen-a4", text=text)
    for plot in plots:
        (page,) = plot.pages
        z = np.concatenate([line for _, line in page.lines])
        assert np.ptp(z.real) <= 11040 * 0.025
        assert np.ptp(z.imag) <= 7721 * 0.025
        for command, numbers in plot.commands:
            if command == "SI":
                assert 10 * numbers[0] * 1.5 * len(page.labels[0][1]) <= 7721 * 0.025


def test_a_half_is_cut_along_its_fold_too() -> None:
    half = Group(
        "back",
        (
            Stroke(lines(np.array([0, 100 + 0j, 100 + 150j, 150j])), "cut"),
            Stroke(lines(np.array([150j, 0j])), "fold"),
        ),
        facts={"piece": "back"},
    )
    _, (plot,) = plotted(Drawing((half,)), "cutter-600")
    (line,) = plot.pages[0].of(1)
    assert line[0] == pytest.approx(line[-1])


def wide_knife(folder: Path) -> str:
    """A cutter on which everything is whole."""
    profile = folder / "wide.toml"
    profile.write_text(
        'title = "wide cutter"\nsource = "made up"\nlanguage = "HP-GL"\nalong = "roll"\nacross = 3000\nlargest = 1000000\n'
        'advance = "PG"\nknife = true\n[pens]\ncut = 1\ndraw = 2\n',
        encoding="utf-8",
    )
    return str(profile)


@pytest.mark.parametrize("device", ["cutter-600", "knife-600"])
def test_a_cutter_has_pieces_alone(device: str) -> None:
    """A legend and a test square would take cloth: as much paper is taken without them."""
    whole = drawing_of(Options(sizes=("M",), pieces=("pocket",)))
    pieces = replace(whole, groups=tuple(group for group in whole.groups if "piece" in group.facts))
    assert len(pieces.groups) < len(whole.groups)
    assert plotted(whole, device)[0].files == plotted(pieces, device)[0].files


def test_halves_and_missing_copies_are_told_of_a_knife() -> None:
    written, _ = plotted(drawing_of(Options(sizes=("M",))), "cutter-600")
    halves, once = (
        next(f for f in written.findings if f.rule.id == rule).values["pieces"]
        for rule in ("hpgl/halves-cut", "hpgl/cut-once")
    )
    folded = {
        p["name"] for p in DEMO["pieces"].values() if any(e.get("fold") for e in p.get("edges", {}).values())
    }
    assert set(halves) >= folded  # pieces that are like others have their folds too
    ordered = {
        p["name"]: sum(order["count"] * len(order.get("plies", [1])) for order in p["cut"])
        for p in DEMO["pieces"].values()
        if "name" in p and "cut" in p
    }
    assert ordered
    told_of = {str(phrase.values["name"]): phrase.values["count"].number for phrase in once}  # type: ignore[attr-defined]
    assert {name: n for name, n in ordered.items() if n > 1}.items() <= told_of.items()
    whole = plotted(drawing_of(Options(sizes=("M",), unfolded=True, copies=True)), "cutter-600")[0]
    assert not told(whole) & {"hpgl/halves-cut", "hpgl/cut-once"}


def test_pieces_off_their_grain_are_told_of_a_knife() -> None:
    """An upright grainline runs along the roll, wherever the piece lies; a slanting one is turned unless it is forbidden."""

    def named(angle: float, turn: Turn | None, device: str = "cutter-600") -> set[str]:
        along = np.exp(1j * np.radians(angle))
        grain = Stroke(lines(np.array([50 + 50j, 50 + 50j + 30 * along])), "grain", facts={"angle": angle})
        return told(plotted(piece(100, 150, grain), device, Paper(turn=turn))[0])

    assert "hpgl/off-grain" not in named(45.0, "free", "roll-36in")
    assert "hpgl/off-grain" not in named(90.0, "drawn")
    assert "hpgl/off-grain" not in named(-90.3, "drawn")
    assert "hpgl/off-grain" in named(0.0, "drawn")
    assert "hpgl/off-grain" in named(45.0, "quarter")
    for angle in (0.0, 45.0, 90.0, 135.0, 180.0, -45.0, 270.0, 12.3):
        assert "hpgl/off-grain" not in named(angle, None)
        assert "hpgl/off-grain" not in named(angle, "grain")


def test_a_knife_alone_tells_what_it_leaves_out() -> None:
    drawing = piece(100, 150, texts=[Text(50 + 50j, "Back", 10.0)])
    written, (plot,) = plotted(drawing, "knife-600")
    assert "hpgl/not-drawn" in told(written)
    assert {pen for pen, _ in plot.pages[0].lines} == {1}


def test_several_sizes_under_a_knife_are_warned_of() -> None:
    assert "hpgl/several-sizes-cut" in told(plotted(drawing_of(), "cutter-600", Paper())[0])
    assert "hpgl/several-sizes-cut" not in told(plotted(drawing_of(), "roll-36in", Paper())[0])


@pytest.mark.parametrize("overcut", ["0.25", "2mm"])
def test_a_knife_cuts_on_past_the_start(overcut: str) -> None:
    _, (plain,) = plotted(piece(100, 150), "cutter-600")
    _, (longer,) = plotted(piece(100, 150), "cutter-600", overcut=overcut)
    one, other = plain.pages[0].of(1)[0], longer.pages[0].of(1)[0]
    assert other[: len(one)] == pytest.approx(one)
    assert abs(other[-1] - one[0]) == pytest.approx(float(overcut.removesuffix("mm")), abs=0.02)


@pytest.mark.parametrize("device", ["pen-a4", "pen-a0", "roll-36in", "cutter-600"])
def test_a_plot_ends_with_the_pen_put_away_at_the_origin(device: str) -> None:
    for plot in plotted(piece(100, 150), device)[1]:
        assert plot.ended == (0j, 0)
        assert plot.commands[0][0] == "IN"
        put_away = [command for command, _ in plot.commands if command != "PG"][-3:]
        assert put_away == ["PU", "PA", "SP"]


def test_sheets_that_are_changed_by_hand_are_files_of_their_own() -> None:
    written, plots = plotted(piece(180, 800), "pen-a4")
    assert list(written.files) == [".hpgl", *(f".{k}.hpgl" for k in range(2, len(plots) + 1))]
    assert len(plots) > 2
    assert all(len(plot.pages) == 1 for plot in plots)


@pytest.mark.parametrize(("device", "advance"), [("pen-a0", "PG"), ("roll-36in", "FR"), ("cutter-600", "PG")])
def test_frames_follow_each_other_as_the_device_is_used_to(device: str, advance: str) -> None:
    _, (plot,) = plotted(piece(500, 4000), device)
    commands = [command for command, _ in plot.commands]
    last = device != "cutter-600"  # HP-GL/2: PG ends the plot
    assert commands.count(advance) == len(plot.pages) - 1 + (last and advance == "PG")


def test_a_side_of_the_paper_may_be_x(tmp_path: Path) -> None:
    profile = tmp_path / "across.toml"
    profile.write_text(
        'title = "x across"\nsource = "made up"\nlanguage = "HP-GL"\nalong = "roll"\nacross = 580\n'
        'x_axis = "across"\nadvance = "PG"\n[pens]\ncut = 1\ndraw = 2\n[speed]\ncut = 10\ndraw = 40\n[force]\ncut = 80\n',
        encoding="utf-8",
    )
    notch = Stroke(lines(np.array([0 + 50j, 5 + 50j])), "stitch")
    _, (plot,) = plotted(piece(100, 300, notch), str(profile))
    z = np.concatenate(plot.pages[0].of(1))
    assert (np.ptp(z.real), np.ptp(z.imag)) == pytest.approx((100, 300), abs=0.03)
    settings_made = [
        (command, numbers) for command, numbers in plot.commands if command in ("SP", "VS", "FS")
    ]
    assert settings_made[:5] == [("SP", (2,)), ("VS", (40,)), ("SP", (1,)), ("VS", (10,)), ("FS", (80,))]


def test_words_as_labels_none_or_strokes() -> None:
    drawing = piece(100, 150, texts=[Text(50 + 50j, "Rück\x03;PG;", 10.0)])
    lines_drawn, labels = {}, {}
    for text in ("strokes", "labels", "none"):
        _, (plot,) = plotted(drawing, "pen-a0", text=text)
        lines_drawn[text] = len(plot.pages[0].of(2))
        labels[text] = [words for _, words in plot.pages[0].labels]
        assert len(plot.pages) == 1
    assert labels == {"strokes": [], "labels": ["Ruck ;PG;"], "none": []}
    assert lines_drawn["labels"] == lines_drawn["none"] == 0
    assert lines_drawn["strokes"] >= 8


@pytest.mark.parametrize(("text", "expected"), [("strokes", True), ("labels", True), ("none", False)])
def test_letters_that_are_not_known_are_told(text: str, expected: bool) -> None:
    written, _ = plotted(piece(100, 150, texts=[Text(50j, "袖", 5.0)]), "pen-a0", text=text)
    assert ("hpgl/letters" in told(written)) == expected


def test_travel_is_told_and_shorter_than_in_the_order_of_the_drawing() -> None:
    written, (plot,) = plotted(drawing_of(Options(sizes=("M",))), "roll-36in")
    (finding,) = (finding for finding in written.findings if finding.rule.id == "hpgl/plotted")
    assert finding.values["times"].times > 1.3  # type: ignore[attr-defined]
    far = sum(page.travel for page in plot.pages)
    assert far / 1000 == pytest.approx(float(str(finding.values["after"])), abs=0.1)


def test_paper_narrows_what_a_device_reaches() -> None:
    _, plots = plotted(drawing_of(Options(sizes=("M",))), "pen-a0", Paper(papers("A2")))
    z = np.concatenate([line for plot in plots for page in plot.pages for _, line in page.lines])
    assert np.ptp(z.real) <= 584.0
    assert np.ptp(z.imag) <= 410.0


@given(
    st.lists(st.builds(complex, st.floats(0, 400), st.floats(0, 400)), min_size=2, max_size=40, unique=True)
)
@settings(max_examples=60, deadline=None)
def test_any_line_comes_back_within_half_a_step(nodes: list[complex]) -> None:
    """Every corner of it, in order: at most half of 0.025 mm off each way, and the lowest corner as much again."""
    drawing = Drawing((Group("p", (Stroke(lines(np.array(nodes)), "cut"),), facts={"piece": "p"}),))
    _, (plot,) = plotted(drawing, "roll-36in")
    drawn = np.concatenate([line for _, line in plot.pages[0].lines])
    meant = -1j * np.array(nodes)
    meant = meant - low([meant])
    assert all(np.abs(drawn - z).min() < 0.0126 * 2 * np.sqrt(2) for z in meant)
