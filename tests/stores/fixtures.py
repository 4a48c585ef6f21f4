"""Stores to test on: a file of SQLite, a database of a real PostgreSQL server."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.stores.postgres import Cluster, running_cluster

from wickwright.store.opening import KeptStore, open_store

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["DATABASES", "cluster", "new_place", "place", "store"]

DATABASES = ("sqlite", "postgresql")


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """Give a PostgreSQL server; the test fails where there is none."""
    with running_cluster() as found:
        yield found


@pytest.fixture(params=DATABASES)
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Give the place of an empty store."""
    if request.param == "sqlite":
        return str(tmp_path / "desk.sqlite")
    server: Cluster = request.getfixturevalue("cluster")
    return server.emptied()


@pytest.fixture(params=DATABASES)
def new_place(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Give a place where there is no store yet; on PostgreSQL that takes a while."""
    if request.param == "sqlite":
        yield str(tmp_path / "new.sqlite")
        return
    server: Cluster = request.getfixturevalue("cluster")
    with server.database() as url:
        yield url


@pytest.fixture
def store(place: str) -> Iterator[KeptStore]:
    """Give an open store with nothing in it."""
    found = open_store(place)
    yield found
    found.close()
