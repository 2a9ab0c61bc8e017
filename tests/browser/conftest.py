"""A browser for the tests: the system's own Chromium; nothing is downloaded."""

import os
import shutil

import pytest


@pytest.fixture(scope="session")
def chromium():
    """A running Chromium, from CUTTLEBONE_CHROMIUM or the system."""
    from playwright.sync_api import sync_playwright

    path = os.environ.get("CUTTLEBONE_CHROMIUM") or shutil.which("chromium")
    if not path:
        words = "no browser: install chromium, or name one in CUTTLEBONE_CHROMIUM"
        if os.environ.get("CI") == "true":
            pytest.fail(words)
        pytest.skip(words)
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        yield browser
        browser.close()
