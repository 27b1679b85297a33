from __future__ import annotations

import pytest

from notchwork.findings import UnknownName

IDS = ("hems/unlike", "hems/too-deep", "seams/wrong-way")


@pytest.mark.parametrize(
    ("name", "known", "said"),
    [
        ("hems/unlke", IDS, "Did you mean hems/unlike?"),
        ("zzz", IDS, "The families are hems and seams."),
        ("hems/zzz", IDS, "The family hems has too-deep and unlike."),
        ("zzz", ("a", "b"), "Known are a and b."),
        ("zzz", ("a",), "Known is a."),
        ("zzz", (), "There is none at all."),
    ],
)
def test_an_unknown_name_is_told_with_what_helps(name: str, known: tuple[str, ...], said: str) -> None:
    error = UnknownName("check", name, known)
    assert error.why == "There is no check of this name."
    assert error.repair == said


def test_of_many_names_a_few_are_told_and_the_rest_counted() -> None:
    said = str(UnknownName("seam", "zzz", (f"seam_{k:04}" for k in range(5000))))
    assert said.endswith("seam_0011 and 4988 more.")
    assert len(said) < 250


def test_a_further_name_may_be_meant_but_is_not_listed() -> None:
    assert UnknownName("seam", "Sied seam", ("s1",), ("Side seam",)).repair == "Did you mean Side seam?"
    assert UnknownName("seam", "zzz", ("s1",), ("Side seam",)).repair == "Known is s1."
