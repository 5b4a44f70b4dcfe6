"""Settings for every test, and who may read the reference data."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from tests.pages.tools import CHROMIUM_FLAGS, chromium
from tests.reference import NoReferenceError, folder, hidden

# No test asserts a time: on a busy machine an example may take as long as it likes. Failures print the
# blob that repeats them.
settings.register_profile("gridproof", deadline=None, print_blob=True)
settings.load_profile("gridproof")


COLLECTED = pytest.StashKey[list[pytest.Item]]()
"""All tests that were collected, before any was set aside by mark or name."""


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Remember what was collected."""
    config.stash[COLLECTED] = items.copy()


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Iterator[None]:
    """Hide the reference data while tests are collected: what is collected never depends on it."""
    with hidden():
        return (yield)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """Hide the reference data from every test that does not bear the mark, so that none reads it unmarked."""
    if item.get_closest_marker("reference"):
        return (yield)
    with hidden():
        return (yield)


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a test that bears the mark where there is no reference data; in CI it fails."""
    if not item.get_closest_marker("reference"):
        return
    try:
        folder()
    except NoReferenceError as error:
        if os.environ.get("CI") == "true":
            pytest.fail(error.message, pytrace=False)
        pytest.skip(f"reads published data that the project does not hold: {error.message}")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A Chromium without a window, one for all tests."""
    path = chromium()
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=CHROMIUM_FLAGS)
        yield started
        started.close()
