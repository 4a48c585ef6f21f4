"""Names and places in a body, looked up in the fit book; every one that is unknown is told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.places.place_names import ElevationTyped, elevation_typed
from wickwright.answers.places.place_words import choice_lines
from wickwright.catalogue.records import KINDS
from wickwright.catalogue.spelling import meant, quoted, spelled
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong
from wickwright.terms.units import UnitsError

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence

    from wickwright.answers.places.town_table import Town, TownTable
    from wickwright.answers.plain.cases import CaseFault
    from wickwright.desk.api_bodies import PlaceAsked
    from wickwright.desk.api_here import BookAsked

__all__ = ["LookUp", "Where"]

_COMMAND: Final = "'wickwright "
_LISTED: Final = {"lamp": "lamps", "wish": "wishes", "complaint": "complaints"}

Where = tuple[float | None, "Town | None"]
"""Height above sea level [m] where one was given, and the town it was taken from."""


class LookUp:
    """Looks names up, and keeps what is wrong until all are looked up.

    Parameters
    ----------
    asked : BookAsked
        The fit book.
    towns : callable
        Gives the table of towns; None where it cannot be read.
    """

    def __init__(self, asked: BookAsked, towns: Callable[[], TownTable | None]) -> None:
        self._book = asked.opened.book
        self._units = asked.units
        self._towns = towns
        self._wrong: list[Wrong] = []
        self._only_names = True

    def done(self) -> None:
        """Refuse the request if anything was wrong.

        Raises
        ------
        ProblemError
            With every fault.
        """
        if not self._wrong:
            return
        first = self._wrong[0].says
        many = f"{len(self._wrong)} things are wrong; the first: {first}"
        says = first if len(self._wrong) == 1 else many
        kind = Refusal.UNKNOWN_NAME if self._only_names else Refusal.NOT_USABLE
        raise ProblemError(kind, says, self._wrong)

    def wrong(self, at: tuple[str | int, ...], says: str) -> None:
        """Note something that is wrong and is no unknown name."""
        self._only_names = False
        self._wrong.append(Wrong("body", at, says))

    def case_faults(self, name: str, faults: Sequence[CaseFault]) -> None:
        """Note what is wrong in a list of what was said and done."""
        for one in faults:
            cure = one.cure.partition(_COMMAND)[0].strip()
            self.wrong((name, one.event - 1), f"{one.what}{'; ' if cure else ''}{cure}")

    # -- names -----------------------------------------------------------------------------------

    def lamp(self, name: str | None, at: str = "lamp") -> str:
        """Return a lamp as the book spells it; blank where none is named."""
        return self._name(name, self._book.lamps, "lamp", (at,)) if name is not None else ""

    def wish(self, name: str | None) -> str:
        """Return a wish as the book spells it; blank where none is named."""
        return self._name(name, self._book.wishes, "wish", ("wish",)) if name is not None else ""

    def complaint(self, name: str | None) -> str:
        """Return a complaint as the book spells it; blank where none is named."""
        known = self._book.calls.complaints
        return self._name(name, known, "complaint", ("complaint",)) if name is not None else ""

    def parts(self, names: Sequence[str], at: str = "have") -> tuple[str, ...]:
        """Return parts as the book spells them."""
        known = self._book.parts
        return tuple(self._name(one, known, "part", (at, i)) for i, one in enumerate(names))

    def lost(self, names: Sequence[str]) -> tuple[str, ...]:
        """Return parts and kinds of part as the book spells them."""
        known, what = {*KINDS, *self._book.parts}, "part or kind of part"
        return tuple(self._name(one, known, what, ("lost", i)) for i, one in enumerate(names))

    def _name(self, name: str, among: Collection[str], what: str, at: tuple[str | int, ...]) -> str:
        found = spelled(name, among)
        if not found:
            resource = _LISTED.get(what, "parts")
            says = (
                f"there is no {what} {quoted(name)} in the fit book: {meant(name, among)}"
                f"GET /api/v1/{resource} lists them"
            )
            self._wrong.append(Wrong("body", at, says))
        return found

    # -- places ----------------------------------------------------------------------------------

    def place(self, body: PlaceAsked) -> Where:
        """Return where the lamp stands."""
        if body.place is None or not body.place.strip():
            return body.elevation_m, None
        if body.elevation_m is not None:
            self.wrong(("place",), "place and elevation_m both say where the lamp stands: give one")
            return None, None
        try:
            found = elevation_typed(body.place, self._table)
        except UnitsError as error:
            self.wrong(("place",), str(error))
            return None, None
        if isinstance(found, ElevationTyped):
            return found.elevation, None
        if found.meant is None:
            self.wrong(("place",), "\n".join(choice_lines(found, self._units)))
            return None, None
        return found.meant.elevation, found.meant

    def _table(self) -> TownTable:
        table = self._towns()
        if table is None:
            msg = "the table of towns cannot be read here: give elevation_m"
            raise UnitsError(msg)
        return table
