"""Stores for every test of this folder."""

from tests.stores.fixtures import cluster, new_place, place, store

__all__ = ["cluster", "new_place", "place", "store"]
