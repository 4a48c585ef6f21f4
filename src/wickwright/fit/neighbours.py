"""Which parts of a book can stand next to a part, by the classes of port that were judged."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from wickwright.fit.classes import port_class

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.classes import Classes, PortClass

__all__ = ["Neighbours"]


class Neighbours:
    """Parts by the port they are joined at; found without judging a joint again.

    Parameters
    ----------
    parts : sequence of Part
        All parts of a book, in the order `classes` counts them.
    classes : Classes
        Which ports fit which.
    """

    def __init__(self, parts: Sequence[Part], classes: Classes) -> None:
        self._parts, self._classes = parts, classes
        self._holders: defaultdict[PortClass, list[tuple[Part, Port]]] = defaultdict(list)
        for part in parts:
            for port in part.carries:
                self._holders[port_class(part, port)].append((part, port))
        self._under: defaultdict[PortClass, list[PortClass]] = defaultdict(list)
        for carrying, standing in classes.fits.items():
            for one in standing:
                self._under[one].append(carrying)

    def of(self, part: Part, port: Port) -> frozenset[str]:
        """Return the parts that fit a port.

        Parameters
        ----------
        part : Part
            Whose port.
        port : Port
            Of that part.

        Returns
        -------
        frozenset of str
            Ids of the parts that stand on a carrying port; of those that carry a standing one.
        """
        return frozenset(self._on(part, port) if port.takes else self._below(part, port))

    def _on(self, part: Part, port: Port) -> Iterator[str]:
        for standing in self._classes.fits[port_class(part, port)]:
            for number in self._classes.standing[standing]:
                other = self._parts[number]
                if other.kind in port.takes:
                    yield other.id

    def _below(self, part: Part, port: Port) -> Iterator[str]:
        for carrying in self._under[port_class(part, port)]:
            for other, on in self._holders[carrying]:
                if part.kind in on.takes:
                    yield other.id
