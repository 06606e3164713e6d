"""`python -m wbgen` is the command `wbgen`."""

from wbgen.cli import app

app(prog_name="wbgen")
