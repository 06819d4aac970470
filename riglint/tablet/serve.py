"""A plain web server for the tablet's folder: on this machine alone, unless told."""

from __future__ import annotations

import sys
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Final

from riglint.tablet.site import CSP

LOOPBACK: Final = "127.0.0.1"
PORT: Final = 8710
_TYPES: Final[dict[str, str]] = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".css": "text/css",
    ".json": "application/json",
    ".wasm": "application/wasm",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".webmanifest": "application/manifest+json",
    ".txt": "text/plain; charset=utf-8",
    "": "application/octet-stream",
}


class Handler(SimpleHTTPRequestHandler):
    """Files with their types, the page's policy as a header too, and no listing of folders."""

    extensions_map = _TYPES

    def end_headers(self) -> None:
        """The headers that go with every answer."""
        self.send_header("Content-Security-Policy", f"{CSP}; frame-ancestors 'none'")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def list_directory(self, path: object) -> None:
        """Nothing is listed."""
        self.send_error(404)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the library's own name
        """Quiet: whoever serves a tablet watches a rig, not a log."""


def server(folder: Path, host: str = LOOPBACK, port: int = PORT) -> ThreadingHTTPServer:
    """The server, bound and not yet running; port 0 takes a free one."""
    return ThreadingHTTPServer((host, port), partial(Handler, directory=str(folder)))


def serve(folder: Path, host: str, port: int) -> None:
    """Serve until stopped by the keyboard."""
    with server(folder, host, port) as running:
        at = running.server_address
        sys.stdout.write(f"http://{at[0]!s}:{at[1]}/ serves {folder}; stop it with Ctrl+C\n")
        if host not in (LOOPBACK, "localhost", "::1"):
            sys.stdout.write("Other devices reach it, but browsers keep a page for use offline only over https.\n")
        sys.stdout.flush()
        running.serve_forever()
