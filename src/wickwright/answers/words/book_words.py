"""Small phrases that pages on the fit book share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["JOINT_ONLY", "listed"]

JOINT_ONLY: Final = (
    "'Fits' speaks of the joint alone. Whether a part stands the heat, draws where the lamp "
    "stands, and does not tip it depends on the whole lamp: ask 'wickwright fit'."
)
"""Said wherever two parts are looked at without their lamp."""

_TWO: Final = 2


def listed(names: Sequence[str], last: str = "and") -> str:
    """Put names into a row of words.

    Parameters
    ----------
    names : sequence of str
        None, one or more.
    last : str
        What stands before the last.

    Returns
    -------
    str
        Such as ``'a, b and c'``.
    """
    if len(names) < _TWO:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"
