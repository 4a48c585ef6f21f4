"""Stores for every test of this folder."""

from tests.stores.fixtures import cluster, place, store

__all__ = ["cluster", "place", "store"]
