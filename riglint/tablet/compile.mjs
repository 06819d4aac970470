// Compiles Python files by the page's own Python, which alone knows its bytecode: node compile.mjs PYODIDE IN.zip OUT.zip
// IN's names are the places where the files will stand. OUT holds a compiled file for each under the same name.

import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [folder, source, target] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${folder}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${folder}/`, env: { PYTHONHASHSEED: "0", HOME: "/home/pyodide" } }); // sets in one order
python.FS.writeFile("/in.zip", readFileSync(source));
python.runPython(`
from importlib._bootstrap_external import _code_to_hash_pyc
from zipfile import ZipFile, ZipInfo

# Held to no source: neither its date nor its content is asked for when it is loaded.
def compiled(place, text):
    return bytes(_code_to_hash_pyc(compile(text, place, "exec", dont_inherit=True), bytes(8), False))

with ZipFile("/in.zip") as source, ZipFile("/out.zip", "w") as target:
    for place in source.namelist():
        target.writestr(ZipInfo(place), compiled(place, source.read(place)))
`);
writeFileSync(target, python.FS.readFile("/out.zip"));
