"""One browser for all tests of this folder; a desk with a fresh store for each module."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.browser.watching import Watched, watched_page
from tests.stores.fixtures import DATABASES, cluster
from tests.support.chromium import running_chromium
from tests.support.open_desks import OpenDesk, open_desk

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser
    from tests.stores.postgres import Cluster

__all__ = ["cluster"]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Give a browser; the test fails where there is none."""
    with running_chromium() as browser:
        yield browser


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OpenDesk]:
    """Give a desk on SQLite, without log-in."""
    with open_desk(tmp_path_factory.mktemp("desk") / "desk.sqlite") as found:
        yield found


@pytest.fixture(scope="module")
def staffed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OpenDesk]:
    """Give a desk on SQLite where people log in."""
    folder = tmp_path_factory.mktemp("staffed")
    with open_desk(folder / "desk.sqlite", people=True) as found:
        yield found


@pytest.fixture(scope="module", params=DATABASES)
def each_desk(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[OpenDesk]:
    """Give a desk on SQLite, then one on PostgreSQL."""
    if request.param == "sqlite":
        place = str(tmp_path_factory.mktemp("each") / "desk.sqlite")
    else:
        server: Cluster = request.getfixturevalue("cluster")
        place = server.emptied()
    with open_desk(place) as found:
        yield found


@pytest.fixture
def watched(chromium: Browser, desk: OpenDesk) -> Iterator[Watched]:
    """Give a page of the desk that is watched for what it asks for and complains of."""
    with watched_page(chromium, desk.url) as found:
        yield found
