"""Faults and changes of books as plain dicts and lists, for machines that ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.compare import Change
    from wickwright.catalogue.faults import Fault

__all__ = ["plain_change", "plain_fault"]


def plain_fault(fault: Fault) -> dict[str, Plain]:
    """Return a fault of a file.

    Parameters
    ----------
    fault : Fault
        Of a book or an order file.

    Returns
    -------
    dict
        ``table``, ``row`` (0: the whole table), ``column``, ``what``, ``cure``, ``doubt``.
    """
    return {
        "table": fault.table,
        "row": fault.row,
        "column": fault.column,
        "what": fault.what,
        "cure": fault.cure,
        "doubt": fault.doubt,
    }


def plain_change(change: Change) -> dict[str, Plain]:
    """Return a changed row of a book.

    Parameters
    ----------
    change : Change
        From the comparison of two books.

    Returns
    -------
    dict
        ``table``, ``key``, ``did``, ``cells`` (``column``, ``old``, ``new``).
    """
    return {
        "table": change.table,
        "key": list(change.key),
        "did": str(change.did),
        "cells": [
            {"column": cell.column, "old": cell.old, "new": cell.new} for cell in change.cells
        ],
    }
