"""Passwords: which are good enough, and how they are kept."""

from __future__ import annotations

from typing import Final

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

__all__ = ["LEAST", "Passwords", "once", "what_is_wrong"]

LEAST: Final = 8
"""Letters a password has at least [-]: ASVS 5.0, 6.2.1."""
_MOST: Final = 200
_ONCE: Final = "once:"
_TRIED: Final = 72
"""Signs of a password that are tried to be guessed; the rest makes it only harder [-]."""
_HARD_ENOUGH: Final = 3
"""Of scores 0 to 4; at 3 it takes more than a hundred million tries [-]."""


class Passwords:
    """Makes and tries hashes with argon2id.

    Parameters
    ----------
    hasher : PasswordHasher or None
        How dear a try is; None is 19 MiB, two passes, one lane.
    """

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        self._hasher = hasher or PasswordHasher(time_cost=2, memory_cost=19_456, parallelism=1)
        self._nobody = self._hasher.hash("nobody has this password")

    def hashed(self, password: str) -> str:
        """Return what is kept of a password."""
        return self._hasher.hash(password)

    def for_once(self, secret: str) -> str:
        """Return what is kept of a secret that lets in once, to choose a password."""
        return _ONCE + self._hasher.hash(secret)

    def right(self, kept: str, password: str) -> bool:
        """Tell whether a password is the one; takes as long where nobody has one."""
        try:
            self._hasher.verify(kept.removeprefix(_ONCE) or self._nobody, password[:_MOST])
        except (VerificationError, InvalidHashError):
            return False
        return bool(kept)


def once(kept: str) -> bool:
    """Tell whether what is kept is a secret that lets in once."""
    return kept.startswith(_ONCE)


def what_is_wrong(password: str, name: str) -> str:
    """Say why a password is not good enough; blank where it is.

    Parameters
    ----------
    password : str
        As typed.
    name : str
        Of the person.

    Returns
    -------
    str
        A sentence that says what mends it.
    """
    plain = password.casefold().strip()
    if len(password) < LEAST:
        return f"The password has {len(password)} letters: it needs at least {LEAST}, better 15."
    if len(password) > _MOST:
        return f"The password has {len(password)} letters: the most is {_MOST}."
    if name and name.casefold() in plain:
        return "The password holds your name: take one that nobody can guess from it."
    if _is_guessed(password, name):
        return "The password is easy to guess: take some words that do not go together."
    return ""


def _is_guessed(password: str, name: str) -> bool:
    """Tell whether a password falls to words, names, dates, rows of keys or lists of passwords."""
    from zxcvbn import zxcvbn  # noqa: PLC0415 - its lists take a tenth of a second to load

    known = [name, *name.split(), "wickwright"]
    return bool(zxcvbn(password[:_TRIED], user_inputs=known)["score"] < _HARD_ENOUGH)
