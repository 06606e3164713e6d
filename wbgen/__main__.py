"""The command `wbgen`, which `python -m wbgen` is too."""

import gc
import signal
import sys
from typing import Any, NoReturn

BETWEEN = 50_000
"""So many new objects more than freed ones before cycles among them are looked for; Python's own is 700."""
FAULT = 3
"""The exit code of a fault of this program."""


def main() -> None:
    """Run the command, in which the collector of cycles has little to do.

    Hardly a cycle is made while modules and templates are read, and looking for them takes a tenth of a build. What is
    half written is removed when the program is told to end, and what nobody foresaw is told as what it is.
    """
    gc.set_threshold(BETWEEN)
    signal.signal(signal.SIGTERM, _end)
    from wbgen.cli import app

    try:
        app(prog_name="wbgen")
    except Exception:  # noqa: BLE001 - whatever nobody foresaw
        _confess()


def _end(number: int, _frame: Any) -> NoReturn:
    raise SystemExit(128 + number)


def _confess() -> NoReturn:
    """Say that this is no mistake of the person who called, and what to do."""
    import traceback

    from wbgen import __version__

    traceback.print_exc()
    sys.stderr.write(
        "\nThis is a fault of wbgen, not of yours, and your files are as they were."
        f"\n  do: send these lines to its makers, with what you called (wbgen {__version__})"
        " and, if you may, the files that you gave\n"
    )
    raise SystemExit(FAULT)


if __name__ == "__main__":
    main()
