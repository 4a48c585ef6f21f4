"""A lamp put together: a tree of parts held together at joints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.records import Part, Port

__all__ = ["Assembly", "Mounted"]


@dataclass(frozen=True, slots=True)
class Mounted:
    """A part in its place.

    Attributes
    ----------
    part : Part
        What is mounted.
    by : Port or None
        Its own port that it stands by; None for the root.
    on : Port or None
        The carrying port below it; None for the root.
    carried : tuple of Mounted
        What stands on it.
    """

    part: Part
    by: Port | None = None
    on: Port | None = None
    carried: tuple[Mounted, ...] = ()

    def walk(self) -> Iterator[Mounted]:
        """Yield this part and everything above it, from the table up."""
        yield self
        for child in self.carried:
            yield from child.walk()

    def empty_ports(self) -> Iterator[Port]:
        """Yield its carrying ports on which nothing stands."""
        taken = {child.on.name for child in self.carried if child.on}
        for port in self.part.carries:
            if port.name not in taken:
                yield port


@dataclass(frozen=True, slots=True)
class Assembly:
    """One assembled lamp, and what could not be mounted.

    Attributes
    ----------
    root : Mounted or None
        The base with everything on it; None when there is no base.
    loose : tuple of Part
        Parts with no place on the lamp.
    """

    root: Mounted | None
    loose: tuple[Part, ...] = ()

    def walk(self) -> Iterator[Mounted]:
        """Yield every mounted part from the table up."""
        if self.root is not None:
            yield from self.root.walk()

    def of_kind(self, kind: str) -> Mounted | None:
        """Return the mounted part of a kind, if there is one."""
        return next((it for it in self.walk() if it.part.kind == kind), None)

    def joints(self) -> Iterator[tuple[Mounted, Mounted]]:
        """Yield every carrying part with each part standing on it."""
        for it in self.walk():
            for child in it.carried:
                yield it, child
