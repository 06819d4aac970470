"""`python -m riglint.tablet`: the command by itself."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from riglint.tablet.command import Wanted, run


def _wanted(words: list[str]) -> Wanted:
    parser = argparse.ArgumentParser("riglint tablet", description="Make the tablet's page, with the engine in it.")
    parser.add_argument("-o", dest="out", type=Path, metavar="FOLDER", help="where to write it")
    parser.add_argument("--one-file", action="store_true", help="one HTML file instead of a folder")
    parser.add_argument("--serve", dest="serving", action="store_true", help="serve it on this machine")
    parser.add_argument("--host", default="127.0.0.1", help="another address to serve on")
    parser.add_argument("--port", type=int, default=8710)
    parser.add_argument("--kit", type=Path, metavar="FILE", help="a kit to build in")
    parser.add_argument("--house", type=Path, metavar="FILE", help="a house file to build in")
    parser.add_argument("--rulebook", dest="rulebooks", type=Path, action="append", default=[], metavar="FOLDER")
    parser.add_argument("--examples", type=Path, metavar="FOLDER", help="plans to look at")
    parser.add_argument("--cache", type=Path, metavar="FOLDER", help="where the parts of others are kept")
    said = vars(parser.parse_args(words))
    return Wanted(**said | {"rulebooks": tuple(said["rulebooks"])})


if __name__ == "__main__":
    sys.exit(run(_wanted(sys.argv[1:])))
