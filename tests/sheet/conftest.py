"""Chromium for the tests that look at the sheet as a crew does."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser


# Ends with this folder: two of them at once can't run in one process.
@pytest.fixture(scope="package")
def chromium() -> Iterator["Browser"]:
    from playwright.sync_api import sync_playwright

    from tests.tablet.browser import launched

    with sync_playwright() as playwright:
        browser = launched(playwright)
        yield browser
        browser.close()
