"""What a store refuses."""

from __future__ import annotations

__all__ = ["StoreError"]


class StoreError(Exception):
    """A store cannot be used; the message says why and what mends it."""
