"""The tablet built once for all tests that drive a browser."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from riglint.tablet.command import Wanted, run

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

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


@pytest.fixture(scope="session")
def started(chromium: "Browser", address: str) -> Iterator["Page"]:
    """One page whose engine is up and whose files are kept, for all tests that don't test the start."""
    from tests.tablet.browser import kept_offline, opened

    page = opened(chromium.new_context(), address)
    kept_offline(page)
    yield page
    page.context.close()


@pytest.fixture
def desk(started: "Page") -> Iterator["Page"]:
    """That page with no plan on it, as a new one is; whatever it complains of fails the test at its end."""
    from tests.tablet.browser import LEVEL, cleared

    started.set_viewport_size(LEVEL)  # type: ignore[arg-type]
    cleared(started)
    yield started
    complaints, started.complaints = started.complaints, []  # type: ignore[attr-defined]
    assert complaints == []
