"""The pattern inside a PDF is read again; what is none, is damaged or hostile is told in words."""

from __future__ import annotations

import io
import resource
import zlib
from pathlib import Path

import pikepdf
import pytest
from patterns import CASES
from pdf_files import data_of, named, opened

from notchwork import jobs
from notchwork.document import MOST_BYTES
from notchwork.draw import Options
from notchwork.findings import NotchworkError
from notchwork.formats import Source
from notchwork_plugins.pdf.read import read

SMOCK = CASES / "ferry_smock.pattern.json"


def test_what_was_printed_is_the_same_pattern_again(tmp_path: Path) -> None:
    path = tmp_path / "smock.pdf"
    jobs.convert(SMOCK, path)
    loaded = jobs.load(path)
    assert loaded.sound() == jobs.load(SMOCK).sound()
    assert [finding.rule.id for finding in loaded.findings] == ["pdf/read-attached"]


def test_the_document_is_a_file_that_belongs_to_the_pdf(tmp_path: Path) -> None:
    path = tmp_path / "smock.pdf"
    jobs.convert(SMOCK, path)
    pdf = pikepdf.open(path)
    ((name, spec),) = pdf.attachments.items()
    assert name == "ferry_smock.pattern.json"
    assert spec.get_file().mime_type == "application/json"
    assert spec.obj.AFRelationship == "/Source"
    assert pdf.Root.AF[0].objgen == spec.obj.objgen
    assert jobs.load(spec.get_file().read_bytes(), name).sound() == jobs.load(SMOCK).sound()


def test_without_the_document_there_is_no_pattern_in_it(tmp_path: Path) -> None:
    path = tmp_path / "smock.pdf"
    jobs.convert(SMOCK, path, drawing=Options(document=False))
    with pytest.raises(NotchworkError, match="only lines on pages") as caught:
        jobs.load(path)
    assert "--no-document" in caught.value.repair


def test_a_copy_that_another_program_saved_is_read_too(tmp_path: Path) -> None:
    path = tmp_path / "smock.pdf"
    jobs.convert(SMOCK, path)
    out = io.BytesIO()
    pdf = pikepdf.open(path)
    pdf.save(
        out, linearize=True, stream_decode_level=pikepdf.StreamDecodeLevel.generalized, compress_streams=False
    )
    assert (
        read(
            Source("a.pdf", out.getvalue()),
        ).pattern
        == jobs.load(SMOCK).sound()
    )


def saved(pdf: pikepdf.Pdf, **options: object) -> bytes:
    out = io.BytesIO()
    pdf.save(out, **options)  # type: ignore[arg-type]
    return out.getvalue()


def two_patterns() -> bytes:
    pdf = opened(data_of(named("a", title="one", attached=b"{}")))
    pdf.attachments["two.pattern.json"] = pikepdf.AttachedFileSpec(pdf, b"{}", filename="two.pattern.json")
    return saved(pdf)


def locked() -> bytes:
    pdf = opened(data_of(named("a", attached=b"{}")))
    return saved(pdf, encryption=pikepdf.Encryption(user="a", owner="b"))


def bomb() -> bytes:
    """A document of 4 GB, packed twice into some kilobytes."""
    packer = zlib.compressobj(9)
    once = b"".join(packer.compress(bytes(1_000_000)) for _ in range(4_000)) + packer.flush()
    pdf = opened(data_of(named("a", attached=b"{}")))
    spec = pdf.attachments["document.pattern.json"]
    stream = spec.obj.EF.F
    stream.write(zlib.compress(once, 9), filter=pikepdf.Array([pikepdf.Name.FlateDecode] * 2))
    return saved(pdf, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.none)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (two_patterns(), "Several patterns"),
        (locked(), "password"),
        (bomb(), "damaged, or swells"),
        (b"%PDF-1.7\n", "damaged"),
        (b"%PDF-1.7\n" + b"1 0 obj << /A [" * 5000, "damaged"),
        (data_of(named("a", attached=b"{}"))[:400], "damaged"),
        (data_of(named("a")), "only lines on pages"),
    ],
    ids=["two", "locked", "bomb", "empty", "nested", "cut off", "none"],
)
def test_what_cannot_be_read_is_told_in_words(data: bytes, says: str) -> None:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with pytest.raises(NotchworkError, match=says) as caught:
        read(Source("a.pdf", data))
    assert caught.value.repair
    assert (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) * 1024 < 5 * MOST_BYTES


def test_the_limits_of_others_stay_as_they_were() -> None:
    before = pikepdf.settings.get_qpdf_limits()
    with pytest.raises(NotchworkError):
        read(Source("a.pdf", b"%PDF-"))
    assert pikepdf.settings.get_qpdf_limits() == before


def test_faults_of_the_document_are_told() -> None:
    done = read(Source("a.pdf", data_of(named("a", attached=b'{"notchwork": "1.0", "pieces": 3}'))))
    assert done.pattern is None
    assert len(done.findings) > 1
