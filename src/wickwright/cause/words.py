"""A caller's own words beside the complaints of the book: offered, never taken silently."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.phrases import likeness

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.call_records import CallBook, Complaint

__all__ = ["Meant", "complaints_meant"]

_LEAST = 0.3


@dataclass(frozen=True, slots=True)
class Meant:
    """A complaint a caller may mean, and how well the words go with it, 0 to 1 [-]."""

    complaint: Complaint
    likeness: float


def _phrases(complaint: Complaint) -> Iterable[str]:
    yield complaint.id.replace("-", " ")
    yield complaint.says
    yield from complaint.words


def complaints_meant(calls: CallBook, text: str) -> tuple[Meant, ...]:
    """Return the complaints a caller's words may mean.

    Parameters
    ----------
    calls : CallBook
        The call tables of the book.
    text : str
        What the caller said.

    Returns
    -------
    tuple of Meant
        Best first, equals in the order of the book; empty where nothing is near. Whoever asks
        shows them and lets a person choose.
    """
    found = [Meant(one, likeness(text, _phrases(one))) for one in calls.complaints.values()]
    near = [meant for meant in found if meant.likeness >= _LEAST]
    return tuple(sorted(near, key=lambda meant: -round(meant.likeness, 9)))
