"""The tablet built once for all tests that drive a browser."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from riglint.tablet.command import Wanted, run

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="session")
def tablet_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("tablet") / "folder"
    assert run(Wanted(out=folder, examples=EXAMPLES)) == 0
    return folder


@pytest.fixture(scope="session")
def tablet_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("tablet") / "riglint.html"
    assert run(Wanted(out=file, one_file=True, examples=EXAMPLES)) == 0
    return file


@pytest.fixture(scope="session")
def address(tablet_folder: Path) -> Iterator[str]:
    from tests.tablet.browser import serving

    with serving(tablet_folder) as url:
        yield url
