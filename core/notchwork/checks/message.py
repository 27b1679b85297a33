"""The words of a graded finding: which seam or piece, which size, what is wrong, and how the other sizes do."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.checks.grade import Graded, GradedRow
from notchwork.checks.merge import alike
from notchwork.checks.names import Names
from notchwork.findings import ROUNDING, Severity, listed, measure_of, worded


def message(graded: Graded, names: Names) -> str:
    """The whole message in the person's unit: "Side seam, size L: Back is 4.5 mm longer than Front (…). In S and M it sews."

    Raises KeyError or ValueError for a template that its values do not fill.
    """
    opening = head(graded, names)
    parts = (sentence(graded, names), also_in(graded, names), right_in(graded, names), also_at(graded, names))
    said = " ".join(part for part in parts if part)
    return f"{opening}: {said}" if opening else said


def head(graded: Graded, names: Names) -> str:
    """Where it is: the seam, piece or thing, and the size it is worst in."""
    return ", ".join(part for part in (names.of(graded.finding.place), in_size(graded, names)) if part)


def in_size(graded: Graded, names: Names) -> str:
    """ "size L", the one it is worst in; "every size" where all figures are the same in all; nothing for one size."""
    worst = graded.worst
    if worst is None or worst.row.size is None:
        return ""
    return "every size" if _same_in_all(graded, names) else f"size {worst.row.size}"


def in_sizes(graded: Graded, names: Names, unequal: bool) -> str:
    """The same as a heading: what is true of every size is not said of one, though the figures are those of one.

    ``unequal``: it is not as bad in all of them.
    """
    worst, sizes = graded.worst, names.pattern.sizes
    wrong = {row.row.size for row in graded.rows if _counts(row, graded)}
    if worst is None or sizes is None or len(sizes.names) < 2 or wrong != set(sizes.names):
        return in_size(graded, names)
    if _same_in_all(graded, names):
        return "every size"
    return f"every size, {'worst in' if unequal else 'here'} {worst.row.size}"


def sentence(graded: Graded, names: Names, row: GradedRow | None = None) -> str:
    """What is wrong in one size (the worst, if none is named), without saying where."""
    return worded(graded.finding.text, values(graded, names, row or graded.worst), names.unit)


def hint(graded: Graded, names: Names) -> str:
    """What to do."""
    return worded(graded.finding.hint, values(graded, names, graded.worst), names.unit)


def values(graded: Graded, names: Names, row: GradedRow | None) -> Mapping[str, object]:
    """What a template may name: the finding's values, the row's, and ``seam``, ``piece``, ``size``, ``off``, ``fine``."""
    place = graded.finding.place
    implied: dict[str, object] = {}
    if place.seam is not None:
        implied["seam"] = names.seam(place.seam)
    if place.piece is not None:
        implied["piece"] = names.piece(place.piece)
    if graded.tolerance is not None and graded.tolerance.fine is not None:
        implied["fine"] = measure_of(graded.tolerance.fine, graded.tolerance.unit)
    if row is None:
        return {**implied, **graded.finding.values}
    if row.row.size is not None:
        implied["size"] = row.row.size
    if graded.tolerance is not None:
        implied["off"] = measure_of(abs(row.row.off), graded.tolerance.unit)
    return {**implied, **graded.finding.values, **row.row.values}


def also_in(graded: Graded, names: Names) -> str:
    """The other sizes that are wrong: "Also in S (2.0 mm)." or "Also in S and L, by as much."; nothing if there are none."""
    worst = graded.worst
    others = [row for row in graded.rows if row is not worst and _counts(row, graded)]
    if worst is None or not others or _same_in_all(graded, names):
        return ""
    if all(abs(other.row.off - worst.row.off) <= ROUNDING for other in others):
        by = ", by as much" if graded.tolerance is not None else ""
        return f"Also in {listed(str(other.row.size) for other in others)}{by}."
    return f"Also in {listed(_in_size(other, worst, graded, names) for other in others)}."


def right_in(graded: Graded, names: Names) -> str:
    """The sizes that are right: "In M it sews.", and what that tells of the grading; nothing if there are none."""
    right = _right(graded, names)
    if not right:
        return ""
    said = f"In {listed(right)} it {'sews' if graded.finding.place.seam else 'is right'}."
    sizes = names.pattern.sizes
    if sizes is not None and sizes.base in right:
        said += f" {sizes.base} is the size it is drafted in, so look at the grading first."
    return said


def also_at(graded: Graded, names: Names) -> str:
    """The further places of the same fault: "The same holds for Lining side seam."."""
    here = names.of(graded.finding.place)
    others = dict.fromkeys(names.of(place) for place in graded.finding.also)
    others.pop(here, None)
    if not others:
        return ""
    return f"The same holds for {listed(others)}." if here else f"This concerns {listed(others)}."


def _same_in_all(graded: Graded, names: Names) -> bool:
    sizes = names.pattern.sizes
    if sizes is None or len(sizes.names) < 2 or {row.row.size for row in graded.rows} != set(sizes.names):
        return False
    first = graded.rows[0]
    return all(
        row.severity == first.severity and row.row.values == first.row.values and alike(row.row, first.row)
        for row in graded.rows
    )


def _counts(row: GradedRow, graded: Graded) -> bool:
    """Info rows are within what is fine; beside a warning they count as right."""
    return row.severity >= min(Severity.WARNING, graded.severity)


def _right(graded: Graded, names: Names) -> list[str]:
    fine = {*graded.right, *(row.row.size for row in graded.rows if not _counts(row, graded))}
    order = names.pattern.sizes.names if names.pattern.sizes is not None else ()
    return [size for size in order if size in fine]


def _in_size(other: GradedRow, worst: GradedRow, graded: Graded, names: Names) -> str:
    if graded.tolerance is None:
        return str(other.row.size)
    turned = ", the other way round" if other.row.off * worst.row.off < 0 else ""
    values = {
        "size": other.row.size,
        "off": measure_of(abs(other.row.off), graded.tolerance.unit),
        "turned": turned,
    }
    return worded("{size} ({off}{turned})", values, names.unit)
