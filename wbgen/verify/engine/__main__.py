"""The engine's own process: `python -m wbgen.verify.engine PATH MEMORY SECONDS`, started by `process`.

It reads a JSON object a line. `{"day": 46203.0}` evaluates for that day; `{"extents": {"Mix": [60, 20]}}` asks for the
values of so many rows and columns, and is the last: the answer is `{"values": {…}}`, or `{"refused": …}` in
formualizer's words. Where a limit is crossed, the process dies.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from wbgen.verify.engine.evaluate import REFUSALS, evaluate, loaded, values


def main(path: Path, memory: int, seconds: int) -> None:
    """Answer to what is read, within so many bytes of `memory` and `seconds` of the processor."""
    _limit(memory, seconds)
    answer: dict[str, Any]
    try:
        workbook, used = loaded(path), False
        for line in sys.stdin:
            asked = json.loads(line)
            if "extents" in asked:
                answer = {"values": values(workbook, asked["extents"])}
                break
            if used:  # a day that was guessed was not the file's
                workbook = loaded(path)
            evaluate(workbook, asked["day"])
            used = True
        else:
            return  # nobody wants to know
    except REFUSALS as error:
        answer = {"refused": str(error)}
    json.dump(answer, sys.stdout)


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
