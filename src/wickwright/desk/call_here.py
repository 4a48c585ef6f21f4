"""A call by the number in an address, and what a write to it came to."""

from starlette.requests import Request

from wickwright.answers.sheet.call_record import Call
from wickwright.answers.sheet.desk_store import NothingToTakeBack, Stale, Unknown
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import state_of

__all__ = ["call_here", "written"]

_MOST = 2**31 - 1


def call_here(request: Request, number: int) -> Call:
    """Return a call.

    Parameters
    ----------
    request : Request
        What was asked.
    number : int
        Of the call.

    Returns
    -------
    Call
        As it stands.

    Raises
    ------
    RefusedError
        When there is none.
    """
    call = state_of(request).store.calls.call(number) if 0 < number <= _MOST else None
    if call is None:
        raise _no_call(number)
    return call


def _no_call(number: int) -> RefusedError:
    return RefusedError(
        404,
        f"There is no call {number}",
        "The number is misheard, or the call is kept in another store.",
        "Find it by the caller's name, the lamp or a part.",
    )


def written(number: int, done: Call | Stale | Unknown | NothingToTakeBack) -> Call:
    """Return a call after it was written.

    Parameters
    ----------
    number : int
        Of the call.
    done
        What the store says.

    Returns
    -------
    Call
        As it stands now.

    Raises
    ------
    RefusedError
        When somebody else was first, or there is nothing to write.
    """
    if isinstance(done, Stale):
        who = done.now.adviser
        raise RefusedError(
            409,
            f"{who} changed call {number} meanwhile",
            "You looked at it as it stood before, so nothing of yours was written.",
            "Open the call again, read what is new, and do it once more if it still holds.",
        )
    if isinstance(done, Unknown):
        raise _no_call(number)
    if isinstance(done, NothingToTakeBack):
        raise RefusedError(
            409,
            "There is nothing to take back",
            f"Call {number} stands as it was begun.",
            "Change it on the sheet.",
        )
    return done
