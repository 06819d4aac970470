"""`python -m riglint.tablet`: the command by itself."""

from __future__ import annotations

import typer

from riglint.commands.tablet_call import tablet

if __name__ == "__main__":
    typer.run(tablet)
