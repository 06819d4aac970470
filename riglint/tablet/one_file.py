"""The tablet as one HTML file that runs from wherever it lies: nothing in it asks for anything outside."""

from __future__ import annotations

import gzip
import json
import re
from base64 import b64encode
from pathlib import Path
from typing import Final

from riglint.tablet.bundle import Files
from riglint.tablet.site import bare_imports, engine_parts, filled, given, integrity, page_texts

_MODULES: Final = ("pyodide.mjs", "pyodide.asm.mjs")
_CSP: Final = (
    "default-src 'none'; script-src data: 'wasm-unsafe-eval' {scripts}; style-src {style}; img-src data: blob:;"
    " connect-src 'none'; worker-src data:; base-uri 'none'; form-action 'none'"
)
_LOADER: Final = """
globalThis.riglintOneFile = () => {
  const text = (name) => document.getElementById("part " + name).textContent;
  const plain = (name) => new Blob([Uint8Array.from(atob(text(name)), (c) => c.charCodeAt(0))]).stream();
  const bytes = (name) => new Response(plain(name).pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  const code = (data) => {
    const view = new Uint8Array(data);
    let plain = "";
    for (let i = 0; i < view.length; i += 0x8000) plain += String.fromCharCode(...view.subarray(i, i + 0x8000));
    return "data:text/javascript;base64," + btoa(plain);
  };
  const given = (async () => {
    const all = (names) => Promise.all(names.map(async (name) => [name, await bytes(name)]));
    const [modules, others] = await Promise.all([MODULES, OTHERS].map(all));
    return {
      modules: Object.fromEntries(modules.map(([name, data]) => [name, code(data)])),
      bytes: Object.fromEntries(others),
      engineName: "engine.zip",
    };
  })();
  return { worker: new Worker(text("worker.js"), { type: "module" }), given };
};
"""


def one_file(parts: dict[str, Path], built_in: Files, examples: list[dict[str, str]]) -> str:
    """The whole page as one text."""
    engine = engine_parts(parts, built_in)
    texts = page_texts()
    script = _loader(engine)
    names = json.dumps({"imports": {f"riglint/{n}": _url(bare_imports(t)) for n, t in texts.items() if _is_module(n)}})
    start = 'import "riglint/app.js";'
    style = texts["style.css"]
    scripts = " ".join(f"'{integrity(text.encode())}'" for text in (script, names, start))
    page = filled(_CSP.format(scripts=scripts, style=f"'{integrity(style.encode())}'"), given(examples))
    held = _data("worker.js", _url(texts["worker.js"])) + "".join(_data(n, _packed(d)) for n, d in engine.items())
    page = page.replace('<link rel="manifest" href="manifest.webmanifest">\n', "")
    page = page.replace('href="icon.svg"', f'href="{_url(texts["icon.svg"], "image/svg+xml")}"')
    page = page.replace('<link rel="stylesheet" href="style.css">', f"<style>{style}</style>")
    page = page.replace(
        '<script type="module" src="app.js"></script>\n',
        f'<script type="importmap">{names}</script>\n',
    )
    page = page.replace("</head>", f"{held}</head>")  # the page makes its body anew; its head stays
    ends = f'<script>{script}</script>\n<script type="module">{start}</script>\n</body>'
    return page.replace("</body>", ends)


def _is_module(name: str) -> bool:
    return name.endswith(".js") and name not in ("worker.js", "sw.js")


def _loader(engine: Files) -> str:
    others = [name for name in engine if name not in _MODULES]
    script = _LOADER.replace("MODULES", json.dumps(list(_MODULES))).replace("OTHERS", json.dumps(others))
    return re.sub(r"\n +", "\n", script)


def _url(text: str, kind: str = "text/javascript") -> str:
    return f"data:{kind};base64,{b64encode(text.encode()).decode()}"


def _packed(data: bytes) -> str:
    return b64encode(gzip.compress(data, 9, mtime=0)).decode()


def _data(name: str, text: str) -> str:
    return f'<script type="text/plain" id="part {name}">{text}</script>\n'
