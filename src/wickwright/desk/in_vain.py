"""A caller who cannot see the lamp: what is offered in place of one more question."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.sheet.call_record import UNSURE

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.call_record import Said

__all__ = ["RINGS_BACK", "asked_in_vain", "noted"]

RINGS_BACK: Final = "Rings back with the lamp at hand, or sends a photograph."
_MOST: Final = 3
"""Looks in a row that a caller does not know before something else is offered [-]."""


def asked_in_vain(said: Said) -> bool:
    """Return whether the last three looks in a row were answered with what is not known.

    Parameters
    ----------
    said : Said
        What stands on a sheet.

    Returns
    -------
    bool
        True where the caller does better to look first.
    """
    looks = [one for one in said.heard if isinstance(one, dict) and "look" in one]
    return len(looks) >= _MOST and all(map(_is_unsure, looks[-_MOST:]))


def _is_unsure(look: dict[str, Plain]) -> bool:
    return look.get("value") == UNSURE


def noted(said: Said, note: str) -> Said:
    """Put a note under what stands on a sheet for the next adviser.

    Parameters
    ----------
    said : Said
        What stands on a sheet.
    note : str
        Of one line or several; those that stand there already are left out.

    Returns
    -------
    Said
        As it stands then.
    """
    lines = said.note.splitlines()
    missing = [line for line in note.strip().splitlines() if line not in lines]
    return replace(said, note="\n".join([*lines, *missing])) if missing else said
