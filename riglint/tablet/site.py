"""The tablet's files: the page as it stands, the engine, and the list by which the page keeps them."""

from __future__ import annotations

import html
import json
import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path
from typing import Final

from riglint.tablet import compiled
from riglint.tablet.bundle import Files, archive, engine_files, licences, unpacked
from riglint.tablet.icons import icon
from riglint.tablet.parts import locked

PAGE: Final = Path(__file__).with_name("page")
_TEXTS: Final = frozenset({".js", ".css", ".svg", ".webmanifest"})
_UNKEPT: Final = frozenset({"sw.js", "licences.txt"})  # what the browser itself looks after, or nobody needs afield
CSP: Final = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob:;"
    " connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"
)


def given(examples: list[dict[str, str]]) -> str:
    """What is built in for the page itself, as JSON that can stand in a page."""
    return json.dumps({"examples": examples}, ensure_ascii=True).replace("<", "\\u003c")


def engine_parts(parts: dict[str, Path], built_in: Files) -> Files:
    """What the worker starts from, by name."""
    pyodide = parts["pyodide"]
    files = compiled.members(pyodide, (*compiled.PYODIDE, compiled.LOCK))
    info = json.loads(files[compiled.LOCK])["info"]
    files[compiled.LOCK] = json.dumps({"info": info, "packages": {}}).encode()
    files["python_stdlib.zip"] = archive(compiled.library(unpacked(files["python_stdlib.zip"]), pyodide))
    return files | {"engine.zip": archive(compiled.engine(engine_files(parts, built_in), pyodide))}


def page_texts() -> dict[str, str]:
    """The page's own files, as they stand."""
    return {f.name: f.read_text("utf-8") for f in sorted(PAGE.iterdir()) if f.suffix in _TEXTS}


def filled(csp: str, given_json: str) -> str:
    """The page with its policy and what is built in."""
    text = (PAGE / "index.html").read_text("utf-8")
    return text.replace("@CSP@", html.escape(csp)).replace("@GIVEN@", given_json)


def site(parts: dict[str, Path], built_in: Files, examples: list[dict[str, str]]) -> Files:
    """Every file of the folder that a web server hands out."""
    files: Files = {name: text.encode() for name, text in page_texts().items() if name != "sw.js"}
    files["index.html"] = filled(CSP, given(examples)).encode()
    files |= {f"icon-{size}.png": icon(size) for size in (192, 512)}
    files |= {f"engine/{name}": data for name, data in engine_parts(parts, built_in).items()}
    kept = sorted(name for name in files if name not in _UNKEPT)
    store = "riglint-" + _name_of(files)
    files["build.json"] = json.dumps({"store": store, "files": [*kept, "build.json"]}).encode()
    files["sw.js"] = _worker(store, {name: files[name] for name in [*kept, "build.json"]}).encode()
    files["licences.txt"] = _licences(parts).encode()
    return files


def _name_of(files: Files) -> str:
    whole = sha256()
    for name in sorted(files):
        whole.update(f"{name} {sha256(files[name]).hexdigest()}\n".encode())
    return whole.hexdigest()[:20]


def _worker(store: str, kept: Files) -> str:
    listed = ",\n  ".join(f"{json.dumps(name)}: {json.dumps(integrity(data))}" for name, data in kept.items())
    text = (PAGE / "sw.js").read_text("utf-8")
    return text.replace("@STORE@", store).replace("/*@FILES@*/", f"\n  {listed},\n")


def integrity(data: bytes) -> str:
    """A digest as pages write it."""
    return "sha256-" + b64encode(sha256(data).digest()).decode()


def _licences(parts: dict[str, Path]) -> str:
    lines = ["Parts of others that this page runs on, with their licences.", ""]
    lines += [f"{part.name} {part.version}: {part.licence}" for part in locked()]
    for name, text in sorted(licences(parts).items()):
        lines += ["", "=" * 72, name, "=" * 72, text.decode("utf-8", "replace")]
    return "\n".join(lines) + "\n"


_IMPORT: Final = re.compile(r'((?:from|import)\s+")\./([\w-]+\.js)(")')


def bare_imports(text: str) -> str:
    """A module whose neighbours are named without a place, for a page that maps the names."""
    return _IMPORT.sub(r"\1riglint/\2\3", text)
