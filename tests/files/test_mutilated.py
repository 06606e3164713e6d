"""Files spoilt at random are refused in words or read, quickly and in little memory; nothing else happens."""

from __future__ import annotations

import signal
import time
import tracemalloc
import zipfile
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import Final

import pytest

from support.hostile import zipped
from support.mutilated import IN_BYTES, IN_PACKAGE, IN_XML, spoilt, whole
from support.planners import Planners
from support.tier import TIER, Recorder
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import read

SECONDS: Final = 10.0
"""Of the processor, for one file of some kilobytes: far more than it takes."""
BYTES: Final = 64 << 20
"""Of memory at the peak, for one such file."""
Reader = Callable[[Path], object]


@contextmanager
def bounded(seconds: float) -> Iterator[None]:
    """Ends what is done within after so many seconds of the processor. Raises TimeoutError."""

    def end(_signal: int, _frame: FrameType | None) -> None:
        raise TimeoutError(f"more than {seconds:g} s of the processor")

    before = signal.signal(signal.SIGPROF, end)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def outcome(path: Path, reader: Reader = read, seconds: float = SECONDS) -> str:
    """ "read", the code of a refusal that says all that it should, or in words what else happened."""
    tracemalloc.start()
    try:
        with bounded(seconds):
            reader(path)
        said = "read"
    except UnsafeFile as refused:
        whole_words = all((refused.code, refused.expected, refused.found, refused.remedy)) and len(str(refused)) < 2000
        said = refused.code if whole_words else f"a refusal without words: {refused!r}"
    except Exception as error:  # noqa: BLE001 - whatever it is, it is told with the file
        said = f"{type(error).__name__}: {error}"
    finally:
        peak = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
    return said if peak <= BYTES else f"{peak >> 20} MB at the peak"


def told(said: str) -> bool:
    """Whether an outcome is one of those that there may be."""
    return " " not in said


@pytest.mark.parametrize("batch", range(TIER.hostile_batches))
def test_a_spoilt_file_is_refused_in_words_or_read(batch: int, tmp_path: Path, record_property: Recorder) -> None:
    record_property("hostile files", TIER.hostile_files)
    seen = outcomes(f"{TIER.seed} {batch}", TIER.hostile_files, whole(), read, tmp_path)
    assert seen["read"] >= TIER.hostile_files / 20
    assert seen.total() - seen["read"] >= TIER.hostile_files / 4
    assert len(seen) >= 3


@pytest.mark.parametrize("batch", range(TIER.hostile_planner_batches))
def test_a_spoilt_planner_is_refused_in_words_or_verified(
    planners: Planners, batch: int, tmp_path: Path, record_property: Recorder
) -> None:
    record_property("hostile planners", TIER.hostile_planners)
    pocket = planners.get("pocket", "metric")
    with zipfile.ZipFile(pocket.path) as archive:
        sound = {name: archive.read(name) for name in archive.namelist()}
    seen = outcomes(f"{TIER.seed} planner {batch}", TIER.hostile_planners, sound, pocket.verify, tmp_path)
    assert seen["read"] >= TIER.hostile_planners / 20
    assert len(seen) >= 2


def outcomes(seed: str, files: int, sound: Mapping[str, bytes], reader: Reader, folder: Path) -> Counter[str]:
    """The outcomes of so many spoilt files, each of which is one that there may be."""
    seen: Counter[str] = Counter()
    wrong = []
    path = folder / "spoilt.xlsx"
    for number in range(files):
        content, how = spoilt(f"{seed} {number}", sound)
        path.write_bytes(content)
        said = outcome(path, reader)
        seen[said] += 1
        if not told(said):
            wrong.append(f"{seed} {number}: {how}: {said}")
    assert not wrong, "\n".join(wrong)
    return seen


def test_the_file_is_read_before_it_is_spoilt(tmp_path: Path) -> None:
    path = tmp_path / "whole.xlsx"
    path.write_bytes(zipped(whole()))
    assert outcome(path) == "read"


def test_every_stroke_falls_and_a_seed_gives_the_same_file() -> None:
    drawn = [spoilt(f"{number}", whole()) for number in range(400)]
    assert {stroke for _, how in drawn for stroke in (IN_XML | IN_BYTES | IN_PACKAGE) if stroke in how} == {
        *IN_XML, *IN_BYTES, *IN_PACKAGE,
    }  # fmt: skip
    assert drawn[:20] == [spoilt(f"{number}", whole()) for number in range(20)]
    assert len({content for content, _ in drawn}) > 380


def endless(_: Path) -> None:
    while True:
        time.process_time()


def mute(_: Path) -> None:
    raise UnsafeFile("damaged-file", "", "", "")


def careless(_: Path) -> None:
    raise IndexError("list index out of range")


@pytest.mark.parametrize(
    ("reader", "said"),
    [
        (careless, "IndexError: list index out of range"),
        (endless, "TimeoutError: more than 0.2 s of the processor"),
        (lambda _: bytearray(BYTES + 1), "64 MB at the peak"),
        (mute, "a refusal without words: UnsafeFile('damaged-file', '', '', '')"),
    ],
)
def test_a_reader_that_fails_hangs_swells_or_says_nothing_is_told(reader: Reader, said: str, tmp_path: Path) -> None:
    assert outcome(tmp_path / "any.xlsx", reader, 0.2) == said
    assert not told(said)
