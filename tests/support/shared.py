"""What several tests need and none changes: made once a run by whoever asks first, and read by the other workers."""

from __future__ import annotations

import fcntl
import pickle
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

T = TypeVar("T")


class Shared:
    """A folder that all workers of a run see."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)

    def once(self, name: str, make: Callable[[], T]) -> T:
        """What `make` gives. It is called in one worker; the others wait for it and read what it gave.

        `name` tells it from all else that is shared. What it gives must be fit to be pickled. Where it failed once, it
        is not tried again.
        """
        kept, begun = self.folder / f"{name}.pickle", self.folder / f"{name}.begun"
        with self._alone(name):
            if kept.exists():
                known: T = pickle.loads(kept.read_bytes())  # noqa: S301 - this run wrote it itself
                return known
            assert not begun.exists(), f"{name} could not be made: see the first failure"
            begun.touch()
            made = make()
            kept.write_bytes(pickle.dumps(made))
            return made

    @contextmanager
    def _alone(self, name: str) -> Iterator[None]:
        with (self.folder / f"{name}.lock").open("w") as file:
            fcntl.flock(file, fcntl.LOCK_EX)  # given back when the file is closed, also by a process that dies
            yield
