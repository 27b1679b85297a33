"""What stays on the disk when writing goes wrong for real: full, forbidden, killed."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from notchwork.jobs.files import NotWritten, write_together

OLD, NEW = b"old" * 1_000, b"new" * 1_000_000

WRITE = """
import sys
from pathlib import Path
from notchwork.findings import NotchworkError
from notchwork.jobs.files import write_together
while True:
    try:
        write_together({Path(name): b"new" * 1_000_000 for name in sys.argv[2:]})
    except NotchworkError as error:
        sys.exit(str(error))
    if sys.argv[1] == "once":
        break
"""

linux = pytest.mark.skipif(
    sys.platform != "linux", reason="limits, owners and nameless files as Linux has them"
)


@pytest.fixture
def target(tmp_path: Path) -> Path:
    path = tmp_path / "skirt.pdf"
    path.write_bytes(OLD)
    return path


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of a megabyte."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "none", folder], capture_output=True)
    if mounted.returncode:
        pytest.skip("a small disk can be mounted by the superuser only")
    yield folder
    subprocess.run(["umount", folder], check=True)


def run(*targets: Path, **how: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", WRITE, "once", *map(str, targets)]
    return subprocess.run(command, capture_output=True, text=True, **how)  # type: ignore[call-overload, no-any-return]


@linux
def test_a_full_disk_leaves_the_old_file(small_disk: Path) -> None:
    target = small_disk / "skirt.pdf"
    target.write_bytes(OLD)
    done = run(target)
    assert "The disk is full" in done.stderr
    assert "Make room" in done.stderr
    assert target.read_bytes() == OLD
    assert os.listdir(small_disk) == ["skirt.pdf"]


@linux
def test_a_file_may_not_grow_so_large(target: Path) -> None:
    limit = 100_000
    done = run(target, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
    assert "The disk is full" in done.stderr
    assert target.read_bytes() == OLD
    assert os.listdir(target.parent) == ["skirt.pdf"]


@linux
def test_a_folder_of_somebody_else() -> None:
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "skirt.pdf"
        target.write_bytes(OLD)
        Path(folder).chmod(0o555)
        said = as_nobody(target)
        Path(folder).chmod(0o755)
        assert "It may not be written here" in said
        assert "a folder of yours" in said
        assert target.read_bytes() == OLD
        assert os.listdir(folder) == ["skirt.pdf"]


def as_nobody(target: Path) -> str:
    """What is said where somebody writes who may write nothing; the superuser may, and becomes nobody first."""
    ours, theirs = os.pipe()
    child = os.fork()
    if not child:
        try:
            if os.geteuid() == 0:
                os.setgid(65534)
                os.setuid(65534)
            write_together({target: NEW})
        except NotWritten as error:
            os.write(theirs, str(error).encode())
        finally:
            os._exit(0)
    os.waitpid(child, 0)
    os.close(theirs)
    with os.fdopen(ours) as said:
        return said.read()


@linux
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM])
def test_whoever_is_killed_while_writing_leaves_whole_files_and_no_others(target: Path, how: int) -> None:
    for wait in range(8):
        running = subprocess.Popen([sys.executable, "-c", WRITE, "always", str(target)])
        while target.read_bytes() == OLD:
            time.sleep(0.005)
        time.sleep(0.013 * (wait + 1))
        running.send_signal(how)
        running.wait()
        assert target.read_bytes() == NEW
        assert os.listdir(target.parent) == ["skirt.pdf"]
        target.write_bytes(OLD)
