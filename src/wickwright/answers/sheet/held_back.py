"""Why nothing of a call goes out yet: it is not settled which lamp it is, and nobody overruled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.sheet.call_sheet import Known

if TYPE_CHECKING:
    from wickwright.answers.sheet.call_sheet import Sheet

__all__ = ["held_back", "overruled", "what_is_sent"]


def what_is_sent(worked: Sheet) -> str:
    """Name a lamp and what would be sent for it.

    Parameters
    ----------
    worked : Sheet
        The sheet, worked out.

    Returns
    -------
    str
        Such as ``'TY-101: BU-2110 CH-3296'``; blank where nothing is known of it.
    """
    parcel = worked.parcel
    if parcel is None:
        return ""
    bought = parcel.route.buy if parcel.route else ()
    return " ".join((f"{worked.lamp}:", *(part.id for part in bought)))


def overruled(worked: Sheet) -> str:
    """Return why what is not settled is sent all the same.

    Parameters
    ----------
    worked : Sheet
        The sheet, worked out.

    Returns
    -------
    str
        The reason, as long as it was given for this very lamp and these parts; blank else, and
        where nothing has to be overruled.
    """
    said = worked.said
    if worked.known is not Known.LIKELIEST or said.overruled_for != what_is_sent(worked):
        return ""
    return said.overruled


def held_back(worked: Sheet) -> bool:
    """Tell whether order, letter and fit sheet are withheld.

    Parameters
    ----------
    worked : Sheet
        The sheet, worked out.

    Returns
    -------
    bool
        True where another lamp would take something else and nobody has overruled that.
    """
    return worked.known is Known.LIKELIEST and worked.parcel is not None and not overruled(worked)
