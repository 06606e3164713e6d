"""The engine's own process: `python -m wbgen.verify.engine PATH MEMORY SECONDS`, started by `process`.

It reads a JSON object a line. `{"day": 46203.0}` evaluates for that day. `{"extents": {"Mix": [60, 20]}, "strange":
[["Mix", 4, 7]]}` asks for the values of so many rows and columns, and is the last; where the engine refused the file,
the strange formulas are taken out first. The answer is `{"values": {…}}`, or `{"refused": …}` in formualizer's words.
Where a limit is crossed, the process dies.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

import formualizer

from wbgen.verify.engine.evaluate import REFUSALS, evaluate, loaded, take_out, values


def main(path: Path, memory: int, seconds: int) -> None:
    """Answer to what is read, within so many bytes of `memory` and `seconds` of the processor."""
    _limit(memory, seconds)
    workbook: formualizer.Workbook | None = None
    day, refused = 0.0, "it was told no day"
    for line in sys.stdin:
        asked = json.loads(line)
        try:
            if "day" in asked:
                workbook, day, refused = loaded(path), asked["day"], ""
                evaluate(workbook, day)
            elif refused and workbook is not None and asked["strange"]:
                take_out(workbook, asked["strange"])
                evaluate(workbook, day)
                refused = ""
        except REFUSALS as error:
            refused = str(error)
        if "extents" in asked:
            taken = None if refused else workbook
            answer = {"refused": refused} if taken is None else {"values": values(taken, asked["extents"])}
            json.dump(answer, sys.stdout)
            return


def _limit(memory: int, seconds: int) -> None:
    try:
        import resource
    except ImportError:  # there are no such limits on Windows
        return
    resource.setrlimit(resource.RLIMIT_DATA, (memory, memory))
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
