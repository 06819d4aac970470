"""Long runs are left out unless asked for: `pytest --slow` does them as well."""

import gc
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Playwright

# How long an example takes depends on the machine, and on what else it does.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--slow", action="store_true", help="also run what takes long")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--slow"):
        for item in items:
            if item.get_closest_marker("slow"):
                item.add_marker(pytest.mark.skip(reason="a long run: give --slow"))


def pytest_collection_finish() -> None:
    """What was collected stays: looking through it again and again costs a sixth of a run."""
    gc.freeze()
    gc.set_threshold(50_000)


@pytest.fixture(scope="session")
def driver() -> Iterator["Playwright"]:
    """What drives Chromium; there can be one only in a process."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def chromium(driver: "Playwright") -> Iterator["Browser"]:
    """One real Chromium for all tests that are marked `browser`."""
    from playwright.sync_api import expect

    from tests.tablet.browser import PATIENCE_MS, launched

    expect.set_options(timeout=PATIENCE_MS)  # whatever else the machine does: what is waited for is a state
    browser = launched(driver)
    yield browser
    browser.close()
