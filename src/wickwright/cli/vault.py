"""What the command line needs of the desk's store; handed in, so that neither imports the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickwright.answers.sheet.backup_record import Inventory

__all__ = ["Vault"]


@dataclass(frozen=True, slots=True)
class Vault:
    """How the desk's store is backed up and restored.

    Attributes
    ----------
    back_up : callable
        Takes where the store is (blank: where it is kept by itself) and the backup file; raises
        :class:`wickwright.cli.desk.UnusableError` with everything that is wrong.
    restore : callable
        The same, and whether the backup may take the place of what is there.
    """

    back_up: Callable[[str, Path], Inventory]
    restore: Callable[[str, Path, bool], Inventory]
