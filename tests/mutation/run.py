"""Running the tests that concern a file, on a mutant of it, in a copy of the tree.

Each mutant has a process of its own, forked from one that has imported what is slow to import: a mutant costs about
a second. The tree itself is never touched.
"""

import contextlib
import os
import resource
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
COPIED = ("riglint", "rules", "schemas", "examples", "tests", "pyproject.toml", "README.md")
SECONDS = 90  # of work; what takes longer hangs, and so is caught


@contextlib.contextmanager
def copy_of_the_tree() -> Iterator[Path]:
    """A copy that may be mutated."""
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder:
        for name in COPIED:
            source = ROOT / name
            if source.is_dir():
                left_out = shutil.ignore_patterns("__pycache__", ".hypothesis")
                shutil.copytree(source, Path(folder) / name, ignore=left_out)
            elif source.exists():
                shutil.copy(source, folder)
        yield Path(folder)


def tests_for(tree: Path, file: str) -> list[list[str]]:
    """Arguments for pytest, in the order in which a mutant of the file is tried: what is nearest comes first."""
    stem = Path(file).stem
    if file.startswith("rules/"):
        own = [f"tests/rules/test_{stem}.py"] if (tree / f"tests/rules/test_{stem}.py").exists() else []
        named = own + _naming(tree, "published", stem.replace("_", "-"))
        return [named] if named else []
    near = _naming(tree, "mechanics", stem) + _naming(tree, "published", stem)
    return [near or ["tests/mechanics"], ["tests/published", "tests/rules/test_cases.py"]]


def _naming(tree: Path, folder: str, word: str) -> list[str]:
    """The test modules of a folder that name a module or a rule."""
    files = sorted((tree / "tests" / folder).glob("test_*.py"))
    return [str(file.relative_to(tree)) for file in files if word in file.read_text()]


def caught(tree: Path, rounds: list[list[str]]) -> bool:
    """Whether some test fails."""
    return any(_fails(tree, arguments) for arguments in rounds)


def _fails(tree: Path, arguments: list[str]) -> bool:
    child = os.fork()
    if child == 0:
        os._exit(_pytest(tree, arguments))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) not in (0, 5)  # 5: there was no such test


def _pytest(tree: Path, arguments: list[str]) -> int:
    import pytest
    from hypothesis import HealthCheck, Phase, settings

    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    os.chdir(tree)
    sys.dont_write_bytecode = True
    sys.path[:] = [str(tree), *(path for path in sys.path if path not in ("", str(ROOT)))]
    for name in [name for name in sys.modules if name.partition(".")[0] in ("tests", "riglint")]:
        del sys.modules[name]  # those of the tree itself, where they were loaded
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 1)
    os.dup2(silence, 2)
    phases = (Phase.explicit, Phase.generate)  # a failure is enough: it need not be the smallest
    settings.register_profile(
        "mutation", phases=phases, derandomize=True, database=None, deadline=None,
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    settings.load_profile("mutation")
    quietly = ["-x", "-q", "--no-header", "--tb=no", "-W", "ignore::pytest.PytestAssertRewriteWarning"]
    return int(pytest.main([*quietly, "--rootdir", str(tree), *arguments]))
