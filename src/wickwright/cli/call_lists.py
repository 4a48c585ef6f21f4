"""Lists of what a call is taken with: looks, signs, complaints, causes, remedies."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from wickwright.catalogue.records import Book

__all__ = ["CALL_LISTS", "RIGHTS", "WRAPPED"]

Row = dict[str, str]


def _looks(book: Book, kind: str) -> Iterator[Row]:
    for look in book.calls.looks.values():
        if not kind or look.kind == kind:
            yield {
                "look": look.id,
                "kind": look.kind,
                "way": str(look.way),
                "minutes": f"{look.minutes:g}",
                "question": look.question,
            }


def _signs(book: Book, _kind: str) -> Iterator[Row]:
    for sign in book.calls.signs.values():
        yield {
            "sign": sign.id,
            "way": str(sign.way),
            "minutes": f"{sign.minutes:g}",
            "state": str(sign.state),
            "danger": sign.danger,
            "says": sign.says,
        }


def _complaints(book: Book, _kind: str) -> Iterator[Row]:
    for one in book.calls.complaints.values():
        words = "; ".join(one.words)
        yield {"complaint": one.id, "says": one.says, "sign": one.sign, "words": words}


def _causes(book: Book, _kind: str) -> Iterator[Row]:
    for cause in book.calls.causes.values():
        yield {
            "cause": cause.id,
            "of 100": f"{100 * cause.weight:.3g}",
            "says": cause.says,
            "source": cause.source,
        }


def _remedies(book: Book, _kind: str) -> Iterator[Row]:
    for remedy in book.calls.remedies.values():
        yield {
            "remedy": remedy.id,
            "minutes": f"{remedy.minutes:g}",
            "state": str(remedy.state),
            "says": remedy.says,
            "wish": remedy.wish,
        }


CALL_LISTS: dict[str, Callable[[Book, str], Iterator[Row]]] = {
    "looks": _looks,
    "signs": _signs,
    "complaints": _complaints,
    "causes": _causes,
    "remedies": _remedies,
}
"""Rows by the name of the list; looks at parts of one kind only, when a kind is given."""

RIGHTS = {"looks": (3,), "signs": (2,), "causes": (1,), "remedies": (1,)}
WRAPPED = {
    "looks": (4,),
    "signs": (5,),
    "complaints": (1, 3),
    "causes": (2,),
    "remedies": (3,),
}
"""Columns that stand at the right, and columns that may be made narrower."""
