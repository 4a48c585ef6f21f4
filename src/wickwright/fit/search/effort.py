"""How much work a search may do, whatever the work is.

A step is about a tenth of a microsecond of work on the server of the benchmarks: one label
compared with another. All other work is counted in such steps too, and paid for before it is
begun, so that no piece of it runs on far past the limit.
"""

from __future__ import annotations

from typing import Final

__all__ = ["ALLOWED", "LAYOUT", "PLACING", "ROW", "Effort", "Exhausted"]

ALLOWED: Final = 6_000_000
"""Steps allowed where nothing else is said."""

ROW: Final = 5
"""Steps to make one label with what it stands for, or to read it over."""

PLACING: Final = 500
"""Steps to look at one placing, its labels apart."""

LAYOUT: Final = 60
"""Steps to bound one row of the tree laid out."""

_SHARE: Final = 2


class Exhausted(Exception):  # noqa: N818 - a signal between modules, not an error
    """The effort allowed is spent."""


class Effort:
    """Steps allowed and steps made.

    Parameters
    ----------
    limit : int
        Steps allowed.

    Attributes
    ----------
    limit, spent : int
        Steps allowed, and made so far.
    """

    __slots__ = ("limit", "spent")

    def __init__(self, limit: int) -> None:
        self.limit, self.spent = limit, 0

    def spend(self, steps: int = PLACING) -> None:
        """Count some steps that are about to be made; raise Exhausted where too few are left."""
        if self.spent + steps > self.limit:
            raise Exhausted
        self.spent += steps

    def share(self) -> Effort:
        """Return the effort for one question of many: half of what is left."""
        return Effort((self.limit - self.spent) // _SHARE)

    def pay(self, question: Effort) -> None:
        """Count what one question of many has spent."""
        self.spent += question.spent
