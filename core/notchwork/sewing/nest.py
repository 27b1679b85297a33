"""The nest: a pattern with all its sizes laid one on another, and one array of all cubics of all pieces."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import Literal

import numpy as np

from notchwork.geometry import ArcTable, area, lengths, points
from notchwork.model import Notch, Pattern, Piece, Place, resolved_pieces, root_of
from notchwork.sewing.counts.accounts import Account, accounts_of
from notchwork.sewing.counts.forgotten import Forgotten, forgotten_seams
from notchwork.sewing.counts.gaps import gaps_of
from notchwork.sewing.counts.half_drawn import half_drawn, on_the_fold
from notchwork.sewing.counts.halves import Sewn, sewn_seams
from notchwork.sewing.counts.lacks import Lack, lacks_of
from notchwork.sewing.counts.spare import pieces_with_spare_copies
from notchwork.sewing.names import display_names
from notchwork.sewing.pieces.graded import Bools, GradedPiece, Run, points_of, runs_of
from notchwork.sewing.pieces.grading import Complex, Shifts, shifts_by_size
from notchwork.sewing.pieces.lines import Floats, Intake, Line
from notchwork.sewing.pieces.parallels import parallels
from notchwork.sewing.pieces.places import Misplaced, try_position
from notchwork.sewing.pieces.rows import RowBuilder
from notchwork.sewing.pieces.symmetry import all_mirror_images
from notchwork.sewing.shapes.corners import Interior, corner_angles
from notchwork.sewing.shapes.darts import DartShape, dart_shapes
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Spot
from notchwork.sewing.walks.walk import Walk, lay_out, walk_seam
from notchwork.sewing.ways.hands import cut_in_the_wrong_hands
from notchwork.sewing.ways.joints import LooseJoint, loose_joints
from notchwork.sewing.ways.meeting import Belonging
from notchwork.sewing.ways.way import WrongWay, wrong_way_seams


class Nest:
    """A pattern in all its sizes.

    ``cubics`` (n, 4) holds every cubic of every line in every size in mm; ``arc`` (n,) their lengths. ``pieces`` and
    ``walks`` are what checks read; everything has the sizes as first axis. ``misplaced`` lists the places that lie beyond
    their edge: they are taken at its end, and a check says so. ``half_drawn`` are edges, by piece, that are taken for folds
    although nothing says so (see ``taken_whole``).
    """

    def __init__(self, pattern: Pattern, half_drawn: Mapping[str, str] | None = None) -> None:
        self.pattern = pattern
        self.half_drawn = half_drawn or {}
        self.sizes: tuple[str | None, ...] = pattern.sizes.names if pattern.sizes else (None,)
        self.misplaced: list[Misplaced] = []
        written = {
            ident: on_the_fold(piece, self.half_drawn.get(ident))
            for ident, piece in resolved_pieces(pattern).items()
        }
        builder = RowBuilder(len(self.sizes))
        shifts = shifts_by_size(pattern.grade_rules, self.sizes)
        runs = {ident: list(runs_of(piece, self.sizes, shifts)) for ident, piece in written.items()}
        for ident, piece in written.items():
            runs[ident] += list(parallels(piece, runs[ident], self.sizes))
            builder.add(ident, runs[ident])
        self.cubics = builder.cubics()
        self.arc = lengths(self.cubics)
        self._run_up = np.concatenate([[0.0], np.cumsum(self.arc)])
        names = display_names(written)
        self.pieces: Mapping[str, GradedPiece] = {
            ident: self._piece(ident, names[ident], piece, runs[ident], builder, shifts)
            for ident, piece in written.items()
        }

    def taken_whole(self) -> Nest:
        """The nest in which every piece that is evidently drawn by half lies on the fold; itself, where there is none.

        What follows from a fold that was not stated is one fault; the rest is judged as if it were mended.
        """
        found = half_drawn(self)
        if not found:
            return self
        return Nest(self.pattern, {**self.half_drawn, **found}).taken_whole()

    @property
    def base(self) -> int:
        """The index of the size that is drafted."""
        sizes = self.pattern.sizes
        return sizes.names.index(sizes.base) if sizes else 0

    def line(self, piece: str, name: str) -> Line:
        return self.pieces[piece].lines[name]

    def cubics_of(self, line: Line, size: int) -> Complex:
        """The cubics (k, 4) of one line in one size, in the outline's order."""
        return self.cubics[line.rows[size]] if line.rows is not None else np.empty((0, 4), dtype=complex)

    def sense_of(self, line: Line) -> int:
        """+1 where a closed line runs counter-clockwise, -1 where clockwise."""
        drawn = next((self.cubics[rows] for rows in line.rows or () if rows.stop > rows.start), None)
        return 0 if drawn is None else 1 if area(drawn) >= 0 else -1

    def point(self, line: Line, position: Floats, size: int) -> complex:
        """The point at an arc position (mm, sizes) of a line in one size. Raises ValueError where no shape is known."""
        return complex(self.points(line, position[size : size + 1], size)[0])

    def points(self, line: Line, arcs: Floats, size: int) -> Complex:
        """The points (m,) at arc positions (m,) in mm of a line in one size. Raises ValueError where no shape is known."""
        if line.rows is None:
            raise ValueError(f"{line.piece}.{line.name} is known by its length only")
        rows = line.rows[size]
        along = self._run_up[rows.start] + np.asarray(arcs, dtype=np.float64)
        row = np.searchsorted(self._run_up[rows.start + 1 : rows.stop], along, side="right") + rows.start
        row = np.minimum(row, rows.stop - 1)
        beyond = along - self._run_up[row]
        if self._bare_chords[row].all():
            start, end, long = self.cubics[row, 0], self.cubics[row, 3], self.arc[row]
            share = np.divide(beyond, long, out=np.zeros_like(beyond), where=long > 0.0)
            between: Complex = start + np.clip(share, 0.0, 1.0) * (end - start)
            return between
        return points(self.cubics, row, self.arc_table.parameters(row, beyond))

    def outline(self, piece: str, size: int) -> Complex:
        """The stitch line (k, 4) of a piece in one size as drawn, from its first corner."""
        graded = self.pieces[piece]
        return np.concatenate(
            [self.cubics_of(graded.lines[e], size) for e in graded.edges] or [np.empty((0, 4), dtype=complex)]
        )

    @cached_property
    def notches(self) -> Mapping[tuple[str, str], Floats]:
        """Arc position (sizes,) in mm of every notch, by (piece, notch)."""
        return {
            (ident, name): try_position(graded, graded.lines[notch.edge], notch.at, self.misplaced)
            for ident, graded in self.pieces.items()
            for name, notch in graded.written.notches.items()
            if isinstance(notch, Notch) and notch.edge in graded.lines
        }

    @cached_property
    def darts(self) -> Mapping[str, tuple[DartShape, ...]]:
        """By piece, the darts whose shape is known."""
        return {ident: tuple(dart_shapes(self, graded)) for ident, graded in self.pieces.items()}

    @cached_property
    def arc_table(self) -> ArcTable:
        """For points at a distance along any line."""
        return ArcTable(self.cubics)

    @cached_property
    def _bare_chords(self) -> Bools:
        """Which cubics have no handles: on them a distance needs no search."""
        cubics = self.cubics
        bare: Bools = (cubics[:, 1] == cubics[:, 0]) & (cubics[:, 2] == cubics[:, 3])
        return bare

    @cached_property
    def belonging(self) -> Belonging:
        """Which edges belong together in the sewn garment."""
        return Belonging(self)

    @cached_property
    def sides(self) -> Mapping[str, tuple[SideWalk, ...]]:
        """Every seam's sides laid out straight."""
        return {ident: lay_out(self, seam) for ident, seam in self.pattern.seams.items()}

    @cached_property
    def mirror_images(self) -> Mapping[str, tuple[Mapping[str, str], ...]]:
        """By piece, for every axis about which it falls on itself, each edge with the edge that it falls on."""
        return all_mirror_images(self)

    @cached_property
    def sewn(self) -> Mapping[str, Sewn]:
        """How often every seam is sewn, and in which halves of the garment."""
        return sewn_seams(self)

    @cached_property
    def spare(self) -> frozenset[str]:
        """The pieces of which more copies are cut than any one seam takes."""
        return pieces_with_spare_copies(self)

    @cached_property
    def wrongly_cut(self) -> Mapping[str, Literal["both", "other"]]:
        """Pieces whose cut order alone stands against all seams, with the hands in which they would do."""
        return cut_in_the_wrong_hands(self)

    @cached_property
    def accounts(self) -> Mapping[str, Account]:
        """What is cut of every piece, and what takes its edges, interval by interval."""
        return accounts_of(self)

    @cached_property
    def lacks(self) -> Mapping[str, Lack]:
        """What seams need more of than is cut, by piece."""
        return lacks_of(self)

    @cached_property
    def seam_ends(self) -> dict[str, frozenset[Spot]]:
        """Every corner that lies at an end of a side of each seam, on either hand."""
        return {
            ident: frozenset(
                spot
                for side in sides
                for end in (side.stretches[0].start_spot, side.stretches[-1].stop_spot)
                for spot in (end, end.turned())
            )
            for ident, sides in self.sides.items()
        }

    @cached_property
    def walks(self) -> Mapping[str, Walk]:
        """Every seam walked in every size."""
        return {ident: walk_seam(self, ident, seam) for ident, seam in self.pattern.seams.items()}

    @cached_property
    def corners(self) -> Mapping[tuple[str, str], Interior]:
        """The interior angle at every corner, by (piece, edge that begins there)."""
        return corner_angles(self)

    @cached_property
    def loose_joints(self) -> tuple[LooseJoint, ...]:
        """The open joints that no forgotten seam would join."""
        explained = {joint for forgotten in self.forgotten for joint in forgotten.joints}
        return tuple(joint for joint in self.open_joints if joint not in explained)

    @cached_property
    def open_joints(self) -> tuple[LooseJoint, ...]:
        """The joints that nothing joins, but for those of seams that run the wrong way."""
        return tuple(loose_joints(self, self.wrong_way))

    @cached_property
    def forgotten(self) -> tuple[Forgotten, ...]:
        """Every stretch of an edge that nothing takes, by the seam that would."""
        return forgotten_seams(self, gaps_of(self), self.open_joints)

    @cached_property
    def wrong_way(self) -> Mapping[str, WrongWay]:
        """The seams that run the wrong way."""
        return {fault.seam: fault for fault in wrong_way_seams(self)}

    def _piece(
        self, ident: str, name: str, piece: Piece, runs: Sequence[Run], builder: RowBuilder, shifts: Shifts
    ) -> GradedPiece:
        count = len(self.sizes)
        edges = tuple(run.name for run in runs if run.kind == "edge")
        lines = {run.name: self._line(ident, run, edges, builder) for run in runs}
        grain, marks, apexes = points_of(piece, shifts, count)
        present = np.array(
            [all(np.isfinite(lines[e].length[k]) for e in edges) and bool(edges) for k in range(count)]
        )
        cuts = piece.cut or ()
        graded = GradedPiece(
            id=ident,
            name=name,
            root=root_of(self.pattern, ident),
            sizes=self.sizes,
            written=piece,
            lines=lines,
            edges=edges,
            present=present,
            sense=self._sense(lines, edges, present),
            grainline=grain,
            marks=marks,
            apexes=apexes,
            materials=tuple(
                self.pattern.materials[m]
                for cut in cuts
                for m in cut.materials
                if m in self.pattern.materials
            ),
        )
        self._take_in(graded)
        return graded

    def _line(self, ident: str, run: Run, edges: Sequence[str], builder: RowBuilder) -> Line:
        before = after = ""
        if run.kind == "edge":
            k = edges.index(run.name)
            before, after = edges[k - 1], edges[(k + 1) % len(edges)]
        rows = builder.rows.get((ident, run.name))
        if rows is None:
            assert run.measured is not None
            return Line(ident, run.name, "edge", False, None, run.measured, {}, before, after)
        starts, stops = (np.array([r.start for r in rows]), np.array([r.stop for r in rows]))
        length = self._run_up[stops] - self._run_up[starts]
        length[starts == stops] = np.nan
        nodes = {
            name: np.array(
                [
                    self._run_up[r.start + at[name]] - self._run_up[r.start] if name in at else np.nan
                    for r, at in zip(rows, run.named, strict=True)
                ]
            )
            for name in dict.fromkeys(key for at in run.named for key in at)
        }
        return Line(ident, run.name, run.kind, run.closed, rows, length, nodes, before, after)

    def _sense(self, lines: Mapping[str, Line], edges: Sequence[str], present: Iterable[bool]) -> int:
        for size, there in enumerate(present):
            if there and edges and not any(lines[e].by_tape for e in edges):
                around = np.concatenate([self.cubics_of(lines[e], size) for e in edges])
                return 1 if area(around) >= 0 else -1
        return 0

    def _take_in(self, graded: GradedPiece) -> None:
        """Enter darts and pleats on their edges, in the outline's order of their feet."""
        for name, dart in graded.written.darts.items():
            if (
                dart is not None
                and dart.edge is not None
                and dart.edge in graded.lines
                and dart.feet is not None
            ):
                self._enter(graded, "dart", name, graded.lines[dart.edge], dart.feet)
        for name, pleat in graded.written.pleats.items():
            if pleat is not None and pleat.edge in graded.lines:
                self._enter(graded, "pleat", name, graded.lines[pleat.edge], pleat.folds)

    def _enter(
        self,
        graded: GradedPiece,
        kind: Literal["dart", "pleat"],
        name: str,
        line: Line,
        ends: tuple[Place, Place],
    ) -> None:
        a, b = (try_position(graded, line, end, self.misplaced) for end in ends)
        line.intakes.append(Intake(kind, name, np.minimum(a, b), np.maximum(a, b)))
