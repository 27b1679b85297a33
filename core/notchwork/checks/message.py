"""The words of a graded finding: which seam or piece, which size, what is wrong, and how the other sizes do."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.checks.grade import Graded, GradedRow
from notchwork.checks.names import piece_name, seam_name
from notchwork.findings import Length, Measure, Place, Severity, listed, measure_of, plain_name, worded
from notchwork.model import Pattern


def message(graded: Graded, pattern: Pattern) -> str:
    """The whole message in the person's unit: "Side seam, size L: Back is 4.5 mm longer than Front (…). In S and M it sews."

    Raises KeyError or ValueError for a template that its values do not fill.
    """
    opening = head(graded, pattern)
    said = " ".join(
        [sentence(graded, pattern), *other_sizes(graded, pattern), *_other_places(graded, pattern)]
    )
    return f"{opening}: {said}" if opening else said


def head(graded: Graded, pattern: Pattern) -> str:
    """Where it is: the seam, piece or thing, and the size it is worst in."""
    worst = graded.worst
    size = worst.row.size if worst is not None else None
    name = _place_name(graded.finding.place, pattern)
    return ", ".join(part for part in (name, f"size {size}" if size is not None else "") if part)


def sentence(graded: Graded, pattern: Pattern, row: GradedRow | None = None) -> str:
    """What is wrong in one size (the worst, if none is named), without saying where."""
    return worded(graded.finding.text, values(graded, pattern, row or graded.worst), pattern.unit)


def hint(graded: Graded, pattern: Pattern) -> str:
    """What to do."""
    return worded(graded.finding.hint, values(graded, pattern, graded.worst), pattern.unit)


def values(graded: Graded, pattern: Pattern, row: GradedRow | None) -> Mapping[str, object]:
    """What a template may name: the finding's values, the row's, and ``seam``, ``piece``, ``size``, ``off``, ``fine``."""
    place = graded.finding.place
    implied: dict[str, object] = {}
    if place.seam is not None:
        implied["seam"] = seam_name(pattern, place.seam)
    if place.piece is not None:
        implied["piece"] = piece_name(pattern, place.piece)
    if graded.tolerance is not None and graded.tolerance.fine is not None:
        implied["fine"] = measure_of(graded.tolerance.fine, graded.tolerance.unit)
    if row is None:
        return {**implied, **graded.finding.values}
    if row.row.size is not None:
        implied["size"] = row.row.size
    if graded.tolerance is not None:
        implied["off"] = measure_of(abs(row.row.off), graded.tolerance.unit)
    return {**implied, **graded.finding.values, **row.row.values}


def other_sizes(graded: Graded, pattern: Pattern) -> list[str]:
    """How the other sizes do: "Also in S (404.0 against 400.0).", "In M it sews.", and what that tells of the grading."""
    worst = graded.worst
    if worst is None or worst.row.size is None:
        return []
    said: list[str] = []
    also = [row for row in graded.rows if row is not worst and _counts(row, graded)]
    if also:
        said.append(f"Also in {listed(_in_size(row, graded, pattern) for row in also)}.")
    right = _right(graded, pattern)
    if right:
        said.append(f"In {listed(right)} it {'sews' if graded.finding.place.seam else 'is right'}.")
    base = pattern.sizes.base if pattern.sizes is not None else None
    if base in right:
        said.append(f"{base} is the size it is drafted in, so look at the grading first.")
    return said


def _counts(row: GradedRow, graded: Graded) -> bool:
    """Info rows are within what is fine; beside a warning they count as right."""
    return row.severity >= min(Severity.WARNING, graded.severity)


def _right(graded: Graded, pattern: Pattern) -> list[str]:
    fine = {*graded.right, *(row.row.size for row in graded.rows if not _counts(row, graded))}
    order = pattern.sizes.names if pattern.sizes is not None else ()
    return [size for size in order if size in fine]


def _in_size(graded_row: GradedRow, graded: Graded, pattern: Pattern) -> str:
    row = graded_row.row
    if graded.tolerance is None:
        return str(row.size)
    if row.measured is None or row.expected is None:
        template, measures = "{size} ({a})", {"a": _shown(abs(row.off), graded)}
    else:
        template = "{size} ({a:bare} against {b:bare})"
        measures = {"a": _shown(row.measured, graded), "b": _shown(row.expected, graded)}
    return worded(template, {"size": row.size, **measures}, pattern.unit)


def _shown(value: float, graded: Graded) -> Measure:
    return measure_of(value, graded.tolerance.unit) if graded.tolerance is not None else Length(value)


def _other_places(graded: Graded, pattern: Pattern) -> list[str]:
    names = dict.fromkeys(_place_name(place, pattern) for place in graded.finding.also)
    names.pop(_place_name(graded.finding.place, pattern), None)
    return [f"The same holds for {listed(names)}."] if names else []


def _place_name(place: Place, pattern: Pattern) -> str:
    if place.seam is not None:
        return seam_name(pattern, place.seam)
    if place.piece is not None:
        return piece_name(pattern, place.piece)
    if place.notion is not None:
        notion = pattern.notions.get(place.notion)
        return notion.name if notion is not None and notion.name else _capital(plain_name(place.notion))
    if place.opening is not None:
        opening = pattern.openings.get(place.opening)
        return (
            opening.name if opening is not None and opening.name else f"Opening {plain_name(place.opening)}"
        )
    if place.material is not None:
        material = pattern.materials.get(place.material)
        return (
            material.name if material is not None and material.name else _capital(plain_name(place.material))
        )
    return ""


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
