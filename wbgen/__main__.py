"""The command `wbgen`, which `python -m wbgen` is too."""

import gc

BETWEEN = 50_000
"""So many new objects more than freed ones before cycles among them are looked for; Python's own is 700."""


def main() -> None:
    """Run the command, in which the collector of cycles has little to do.

    Hardly a cycle is made while modules and templates are read, and looking for them takes a tenth of a build.
    """
    gc.set_threshold(BETWEEN)
    from wbgen.cli import app

    app(prog_name="wbgen")


if __name__ == "__main__":
    main()
