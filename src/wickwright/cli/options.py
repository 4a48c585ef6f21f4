"""Options and arguments that several commands share, and completion of the book's names."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

import click

from wickwright.cli.desk import Desk, UnusableError, current_desk

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from click.shell_completion import CompletionItem

    from wickwright.answers.places.place_names import TownsFound

__all__ = [
    "ELEVATION",
    "LAMP",
    "MONEY",
    "PART",
    "PART_OR_KIND",
    "TEMPERATURE",
    "WISH",
    "shared_options",
    "store_option",
]

F = TypeVar("F", bound="Callable[..., object]")


# -- names of the book -------------------------------------------------------------------------


class Name(click.ParamType[str]):
    """A name of the book; looked up later, together with all others."""

    def __init__(self, what: str, table: str, more: Callable[[], Iterable[str]] = tuple) -> None:
        self.name = what
        self._table = table
        self._more = more

    def shell_complete(
        self,
        ctx: click.Context,
        param: click.Parameter,  # noqa: ARG002 - as click calls it
        incomplete: str,
    ) -> list[CompletionItem]:
        """Offer the keys of the table that begin with what was typed."""
        from click.shell_completion import CompletionItem as Item  # noqa: PLC0415

        desk = ctx.find_root().obj
        if not isinstance(desk, Desk):
            return []
        done, _, typed = incomplete.rpartition(",")
        before = f"{done}," if done else ""
        names = (*desk.shelf.names(desk.path, self._table), *((one, "") for one in self._more()))
        small = typed.lower()
        return [
            Item(before + key, help=title) for key, title in names if key.lower().startswith(small)
        ]


def _kinds() -> Iterable[str]:
    from wickwright.catalogue.records import KINDS  # noqa: PLC0415 - not needed for --help

    return KINDS


LAMP = Name("lamp", "lamps")
PART = Name("part", "parts")
PART_OR_KIND = Name("part or kind", "parts", _kinds)
WISH = Name("wish", "wishes")


# -- quantities --------------------------------------------------------------------------------


class Elevation(click.ParamType[float]):
    """A text such as 5200ft, or the name of a town that is unmistakable, in metres."""

    name = "place"

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Read the elevation."""
        from wickwright.answers.places.place_names import ElevationTyped, elevation_typed  # noqa: PLC0415
        from wickwright.cli.town_taken import towns_of  # noqa: PLC0415 - not needed for --help
        from wickwright.terms.units import UnitsError  # noqa: PLC0415 - not needed for --help

        if not isinstance(value, str):
            return value
        desk = current_desk() if ctx is None else _desk(ctx)
        try:
            typed = elevation_typed(value, partial(towns_of, desk))
        except UnitsError as error:
            self.fail(str(error), param, ctx)
        if isinstance(typed, ElevationTyped):
            return typed.elevation
        return self._of_town(typed, desk, param, ctx)

    def _of_town(
        self,
        found: TownsFound,
        desk: Desk,
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> float:
        """Take the town that is meant, and keep it to be said; refuse a choice."""
        from wickwright.answers.places.place_words import choice_lines  # noqa: PLC0415 - only for a name

        if found.meant is None:
            lines = choice_lines(found, desk.units_of(None))
            self.fail("\n  ".join(lines), param, ctx)
        desk.town = found.meant
        return found.meant.elevation


class Temperature(click.ParamType[float]):
    """A text such as 110C, in kelvins."""

    name = "temperature"

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Read the temperature."""
        from wickwright.terms.units import UnitsError, parse_temperature  # noqa: PLC0415

        if not isinstance(value, str):
            return value
        try:
            return parse_temperature(value)
        except UnitsError as error:
            self.fail(str(error), param, ctx)


class Money(click.ParamType[int]):
    """An amount such as 120 or 120.00, in the smallest coin."""

    name = "amount"

    def convert(
        self, value: str | int, param: click.Parameter | None, ctx: click.Context | None
    ) -> int:
        """Read the amount."""
        if isinstance(value, int):
            return value
        whole, _, hundredths = value.strip().partition(".")
        if not (whole + hundredths).isdecimal() or not whole or len(hundredths) > 2:  # noqa: PLR2004
            self.fail(f"'{value}' is not an amount: write it like 120 or 120.00", param, ctx)
        return int(whole) * 100 + int(hundredths.ljust(2, "0"))


class TipLimit(click.ParamType[str]):
    """The name of a limit."""

    name = "limit"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Look the limit up."""
        from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help
        from wickwright.fit.settings import TIP_LIMITS  # noqa: PLC0415 - not needed for --help

        if value not in TIP_LIMITS:
            guess = meant(value, TIP_LIMITS)
            self.fail(f"'{value}' is none: {guess}choose {', '.join(TIP_LIMITS)}", param, ctx)
        return value

    def shell_complete(
        self,
        ctx: click.Context,  # noqa: ARG002 - as click calls it
        param: click.Parameter,  # noqa: ARG002 - as click calls it
        incomplete: str,
    ) -> list[CompletionItem]:
        """Offer the limits."""
        from click.shell_completion import CompletionItem as Item  # noqa: PLC0415

        from wickwright.fit.settings import TIP_LIMITS  # noqa: PLC0415 - not needed for --help

        return [Item(name) for name in TIP_LIMITS if name.startswith(incomplete)]


ELEVATION = Elevation()
MONEY = Money()
TEMPERATURE = Temperature()


# -- options of every command --------------------------------------------------------------------


def _desk(ctx: click.Context) -> Desk:
    return cast("Desk", ctx.find_root().obj)


def _set_book(ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    if value is not None:
        if not value:
            msg = "--book is blank: give a folder of CSV files or an .xlsx workbook"
            raise UnusableError(msg)
        _desk(ctx).book = Path(value)


def _set_units(ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    if value:
        _desk(ctx).units = value


def _set_json(ctx: click.Context, _param: click.Parameter, value: bool) -> None:  # noqa: FBT001
    _desk(ctx).json |= value


def _set_tip(ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    if value:
        _desk(ctx).tip = value


def shared_options(*, root: bool = False) -> Callable[[F], F]:
    """Add the options every command has, and the program itself.

    Parameters
    ----------
    root : bool
        True for the program itself: there the environment is looked at.
    """

    def add(command: F) -> F:
        adders = (
            click.option(
                "--book",
                metavar="PATH",
                type=click.Path(),
                callback=_set_book,
                envvar="WICKWRIGHT_BOOK" if root else None,
                show_envvar=root,
                help="Fit book: a folder of CSV files or an .xlsx workbook. "
                "Left out, the demo book.",
                expose_value=False,
                is_eager=True,
                hidden=not root,
            ),
            click.option(
                "--units",
                type=click.Choice(["metric", "us"]),
                callback=_set_units,
                envvar="WICKWRIGHT_UNITS" if root else None,
                show_envvar=root,
                help="Print in millimetres and metres, or in inches and feet.",
                expose_value=False,
                is_eager=True,
                hidden=not root,
            ),
            click.option(
                "--json",
                is_flag=True,
                callback=_set_json,
                help="Print for machines: SI units, money as decimal text.",
                expose_value=False,
                is_eager=True,
                hidden=not root,
            ),
            click.option(
                "--tip-limit",
                metavar="NAME",
                type=TipLimit(),
                callback=_set_tip,
                envvar="WICKWRIGHT_TIP_LIMIT" if root else None,
                show_envvar=root,
                help="Slope a lamp must stand on: ul153 (8 degrees; left out, this), "
                "iec60598-2-4 (6), en15493 (10) and others, see 'wickwright rules tips'.",
                expose_value=False,
                is_eager=True,
                hidden=not root,
            ),
        )
        for adder in reversed(adders):
            command = adder(command)
        return command

    return add


def store_option(command: F) -> F:
    """Add the option that names the desk's store."""
    add = click.option(
        "--store",
        metavar="PATH",
        default="",
        envvar="WICKWRIGHT_STORE",
        show_envvar=True,
        help="The desk's store: a file of SQLite, or an address such as "
        "postgresql://user@host/name. Left out, wickwright/desk.sqlite where your data are kept.",
    )
    return add(command)
