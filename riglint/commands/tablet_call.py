"""The command `tablet` and its options. Thin: the work is imported when it runs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

_Out = Annotated[
    Path | None, typer.Option("--out", "-o", metavar="FOLDER", help="Where to write it; a file with --one-file.")
]
_OneFile = Annotated[bool, typer.Option("--one-file", help="One HTML file that runs from wherever it lies.")]
_Serve = Annotated[bool, typer.Option("--serve", help="Serve it, to this machine alone unless told.")]
_Host = Annotated[str, typer.Option("--host", help="Another address to serve on.")]
_Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="The port to serve on; 0 takes a free one.")]
_Kit = Annotated[Path | None, typer.Option("--kit", metavar="FILE", help="A kit to build in.")]
_House = Annotated[Path | None, typer.Option("--house", metavar="FILE", help="A house file to build in.")]
_Rulebook = Annotated[
    list[Path] | None, typer.Option("--rulebook", metavar="FOLDER", help="A rulebook to build in; repeatable.")
]
_Examples = Annotated[Path | None, typer.Option("--examples", metavar="FOLDER", help="Plans to look at, built in.")]
_Cache = Annotated[
    Path | None, typer.Option("--cache", metavar="FOLDER", help="Where the parts of others are kept for next time.")
]


def tablet(
    *,
    out: _Out = None,
    one_file: _OneFile = False,
    serve: _Serve = False,
    host: _Host = "127.0.0.1",
    port: _Port = 8710,
    kit: _Kit = None,
    house: _House = None,
    rulebook: _Rulebook = None,
    examples: _Examples = None,
    cache: _Cache = None,
) -> None:
    """Make the page for a tablet, the engine in it: loaded once, it works with no network.

    The parts of others that it runs on are got by npm and pip the first time, held to a list of digests and
    kept in a cache. Exit code: 0 made, 2 wrong call or parts missing.
    """
    from riglint.tablet.command import Wanted, run  # noqa: PLC0415

    wanted = Wanted(out, one_file, serve, host, port, kit, house, tuple(rulebook or ()), examples, cache)
    raise typer.Exit(run(wanted))
