"""What must hold of complaints, their causes, and what shows and cures them."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import State
from wickwright.catalogue.cells import CellError
from wickwright.catalogue.faults import Fault
from wickwright.catalogue.links import filled, places
from wickwright.catalogue.shares import check_shares, parse_strength
from wickwright.catalogue.spelling import meant, quoted
from wickwright.terms.source import SOURCES

if TYPE_CHECKING:
    from collections.abc import Collection

    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["check_calls"]

_NOTHING = Decimal(0)
_HUNDRED = Decimal(100)
_RIGHT, _NO_RIGHT = Decimal(92), Decimal(94)  # where the cells are blank

_LEAST, _MOST, _FEW = Decimal(20), Decimal(300), 10
"""Together the weights are between these, where there are more than a few causes."""


# -- signs ---------------------------------------------------------------------------------------


def _check_answers(signs: Sheet) -> None:
    """Note signs whose yes says no more than a no."""
    rights, no_rights = signs.numbers["yes_right"], signs.numbers["no_right"]
    for at, (right, no_right) in enumerate(zip(rights, no_rights, strict=True)):
        yes = _RIGHT if right is None else right
        no = _NO_RIGHT if no_right is None else no_right
        if yes <= _HUNDRED and no <= _HUNDRED and yes + no <= _HUNDRED:
            what = f"of a hundred lamps {yes} with the sign and {100 - no} without it get a yes"
            cure = "word the question so that its answer tells more, and correct the two numbers"
            signs.fault(at, "yes_right", what, cure)


def _check_dangers(signs: Sheet) -> None:
    """Note the signs of danger that could only be seen on a burning lamp."""
    for at, (danger, state) in enumerate(
        zip(signs.texts["danger"], signs.texts["state"], strict=True)
    ):
        if danger and state == State.LIT:
            what = f"a sign of the danger '{danger}' is looked for on a burning lamp"
            cure = f"ask for what was seen, and write {State.ANY} or {State.COLD}"
            signs.fault(at, "state", what, cure)


def _check_signs(sheets: Sheets) -> None:
    signs = sheets["signs"]
    check_shares(signs, ("yes_right", "no_right"))
    check_shares(signs, ("unsure", "anyway"), below=True)
    _check_answers(signs)
    _check_dangers(signs)
    shown = filled(sheets["shows"], "sign")
    for at, (sign, danger) in enumerate(
        zip(signs.texts["sign"], signs.texts["danger"], strict=True)
    ):
        if sign and not danger and shown and sign not in shown:
            what = f"no cause shows by the sign {quoted(sign)}, and it means no danger"
            cure = "say in the table shows which cause does, or take the row out"
            signs.fault(at, "sign", what, cure)


# -- complaints ----------------------------------------------------------------------------------


def _check_words(complaints: Sheet) -> None:
    """Note words that lead to two complaints."""
    owner: dict[str, int] = {}
    columns = (complaints.texts["says"], complaints.texts["words"])
    for at, (says, words) in enumerate(zip(*columns, strict=True)):
        said = {word.strip().casefold(): word.strip() for word in (says, *words.split(";"))}
        for small, word in said.items():
            first = owner.setdefault(small, at) if small else at
            if first != at:
                key, row = complaints.texts["complaint"][first], complaints.rows[first]
                what = f"{quoted(word)} already means the complaint {quoted(key)} on row {row}"
                cure = "keep it where more callers mean it"
                complaints.fault(at, "words", what, cure)


def _check_complaints(sheets: Sheets) -> None:
    complaints, signs = sheets["complaints"], places(sheets["signs"])
    shown = filled(sheets["shows"], "sign")
    _check_words(complaints)
    for at, sign in enumerate(complaints.texts["sign"]):
        if sign in signs and shown and sign not in shown:
            what = f"no cause shows by the sign {quoted(sign)}: nothing explains the complaint"
            cure = "say in the table shows which cause does, or name another sign"
            complaints.fault(at, "sign", what, cure)


# -- causes and what shows them ------------------------------------------------------------------


def _check_weights(causes: Sheet) -> None:
    """Note weights that together leave nearly every lamp well, or none with few faults."""
    check_shares(causes, ("weight",), above=_NOTHING)
    weights = [weight for weight in causes.numbers["weight"] if weight is not None]
    total = sum(weights, _NOTHING)
    if total > _MOST or (len(weights) > _FEW and total < _LEAST):
        what = f"together the causes weigh {total:f} of a hundred lamps complained of"
        cure = f"write weights of a hundred, 12 for 12 %; together {_LEAST} to {_MOST}"
        causes.faults.append(Fault("causes", 0, "weight", what, cure))


def _check_causes(sheets: Sheets) -> None:
    causes = sheets["causes"]
    shown, cured = filled(sheets["shows"], "cause"), filled(sheets["cures"], "cause")
    _check_weights(causes)
    for at, cause in enumerate(causes.texts["cause"]):
        if cause and shown and cause not in shown:
            what = f"nothing shows the cause {quoted(cause)}"
            causes.fault(at, "cause", what, "say in the table shows by which sign it is known")
        if cause and cured and cause not in cured:
            what = f"no remedy cures the cause {quoted(cause)}"
            cure = "say in the table cures which remedy does, the bench if need be"
            causes.fault(at, "cause", what, cure)


def _check_strengths(shows: Sheet) -> None:
    for at, text in enumerate(shows.texts["strength"]):
        try:
            if text:
                parse_strength(text)
        except CellError as error:
            shows.fault(at, "strength", error.what, error.cure)


# -- remedies ------------------------------------------------------------------------------------


def _check_remedies(sheets: Sheets) -> None:
    remedies, wishes = sheets["remedies"], dict.fromkeys(sheets["wishes"].texts["wish"])
    curing = filled(sheets["cures"], "remedy")
    columns = (remedies.texts["remedy"], remedies.texts["wish"])
    for at, (remedy, wish) in enumerate(zip(*columns, strict=True)):
        if remedy and curing and remedy not in curing:
            what = f"the remedy {quoted(remedy)} cures nothing"
            cure = "say in the table cures which cause it does, or take the row out"
            remedies.fault(at, "remedy", what, cure)
        if wish and wish not in wishes:
            cure = f"{meant(wish, wishes)}write the name of a wish, or add the wish"
            remedies.fault(at, "wish", f"there is no wish {quoted(wish)}", cure)
    check_shares(sheets["cures"], ("sure",), above=_NOTHING)


def _check_sources(sheet: Sheet, known: Collection[str]) -> None:
    """Note the sources that are neither in the bibliography nor in the book."""
    for at, key in enumerate(sheet.texts["source"]):
        if key and key not in known:
            cure = (
                f"{meant(key, known)}write a key of the bibliography (docs/sources.bib) or of "
                "the table sources, or practice"
            )
            sheet.fault(at, "source", f"there is no source {quoted(key)}", cure)


def check_calls(sheets: Sheets) -> None:
    """Note what cannot be about complaints, causes and remedies.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The book; faults are added to the sheets ``signs``, ``complaints``, ``causes``,
        ``shows``, ``remedies`` and ``cures``.

    Notes
    -----
    A table without any row is one that nobody has filled in yet: while ``shows`` is empty,
    no cause is blamed for showing nothing, and likewise with ``cures``.
    """
    _check_signs(sheets)
    _check_complaints(sheets)
    _check_causes(sheets)
    _check_strengths(sheets["shows"])
    _check_remedies(sheets)
    known = {**SOURCES, **places(sheets["sources"])}
    for name in ("signs", "causes", "shows", "remedies") if sheets["sources"].known else ():
        _check_sources(sheets[name], known)
