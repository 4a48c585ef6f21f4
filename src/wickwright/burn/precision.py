"""Records of arrays in single precision and back."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any, TypeVar, cast

import numpy as np

__all__ = ["double", "single"]

T = TypeVar("T")


def single(record: T) -> T:
    """Return a record with its arrays in single precision.

    Parameters
    ----------
    record : record, list, tuple or array
        Arrays, and records of them, at any depth; all else stays.

    Returns
    -------
    record, list, tuple or array
        Of the same kind.
    """
    return cast("T", _changed(record, np.float32))


def double(record: T) -> T:
    """Return a record with its arrays in double precision.

    Parameters
    ----------
    record : record, list, tuple or array
        As for :func:`single`.

    Returns
    -------
    record, list, tuple or array
        Of the same kind.
    """
    return cast("T", _changed(record, np.float64))


def _changed(record: object, kind: type[np.floating[Any]]) -> object:
    if isinstance(record, (np.ndarray, np.floating)):
        return record.astype(kind)
    if isinstance(record, list):
        return [_changed(one, kind) for one in record]
    if isinstance(record, tuple):
        return tuple(_changed(one, kind) for one in record)
    if is_dataclass(record) and not isinstance(record, type):
        changed = {one.name: _changed(getattr(record, one.name), kind) for one in fields(record)}
        return type(record)(**changed)
    return record
