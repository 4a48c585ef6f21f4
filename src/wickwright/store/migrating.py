"""The tables brought to the state this program knows, or refused.

Alembic takes longer to load than a desk takes to open, so it is loaded only for a store that is
behind. An empty store gets its tables at once; that they are the same is for the tests to prove.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import sqlalchemy as sa

from wickwright.store.errors import StoreError
from wickwright.store.schema import HISTORY, TABLES

if TYPE_CHECKING:
    from wickwright.store.engines import Engines

__all__ = ["bring_up_to_date", "refuse_unknown", "run_steps"]

_VERSION: Final = sa.table("alembic_version", sa.column("version_num", sa.String))
_STEPS: Final = "wickwright.store:migrations"


def refuse_unknown(engines: Engines, place: str) -> None:
    """Refuse a store that is not there, or not in the state this program knows.

    Parameters
    ----------
    engines : Engines
        Of the store.
    place : str
        What to call it.

    Raises
    ------
    StoreError
        When it is anything but up to date.
    """
    state = _state(engines)
    if state is None:
        msg = f"{place} holds no desk's store: name the one that 'wickwright desk' was started with"
        raise StoreError(msg)
    if state not in HISTORY:
        raise StoreError(_newer(place, state))
    if state != HISTORY[-1]:
        msg = (
            f"the tables of the store {place} are at '{state}', those of this wickwright at "
            f"'{HISTORY[-1]}': start the desk once, which brings them up to date"
        )
        raise StoreError(msg)


def bring_up_to_date(engines: Engines, place: str) -> None:
    """Make the tables of an empty store, or take the steps that are missing.

    Parameters
    ----------
    engines : Engines
        Of the store.
    place : str
        What to call it.

    Raises
    ------
    StoreError
        When it is of a newer program, or holds something else.
    """
    if _state(engines) == HISTORY[-1]:
        return
    with engines.gate(), engines.write.connect() as connection:
        if engines.dialect == "sqlite":
            _foreign_keys(connection, on=False)
        try:
            with connection.begin():
                engines.keep_others_out(connection)
                _change_tables(connection, place)
        finally:
            if engines.dialect == "sqlite":
                _foreign_keys(connection, on=True)


def _state(engines: Engines) -> str | None:
    with engines.read.connect() as connection:
        return _state_of(connection)


def _state_of(connection: sa.Connection) -> str | None:
    """Return which state the tables are in; None where there is no word of it."""
    if not sa.inspect(connection).has_table(_VERSION.name):
        return None
    return connection.scalar(sa.select(_VERSION.c.version_num))


def _foreign_keys(connection: sa.Connection, *, on: bool) -> None:
    """Switch the checking of keys, which SQLite does only while no transaction is open.

    With it on, a table that is copied and dropped would take all rows that point to it along.
    """
    raw = connection.connection.driver_connection
    if raw is not None:
        raw.execute(f"PRAGMA foreign_keys = {'ON' if on else 'OFF'}")


def _change_tables(connection: sa.Connection, place: str) -> None:
    state = _state_of(connection)
    if state is None:
        _begin(connection, place)
    elif state not in HISTORY:
        raise StoreError(_newer(place, state))
    elif state != HISTORY[-1]:
        run_steps(connection)
        _check_keys(connection)


def _newer(place: str, state: str) -> str:
    return (
        f"the store {place} was written by a newer wickwright (its tables are at '{state}', "
        f"this program knows them up to '{HISTORY[-1]}'): start the newer program, or name "
        "another store"
    )


def _begin(connection: sa.Connection, place: str) -> None:
    others = sorted(sa.inspect(connection).get_table_names())
    if others:
        msg = (
            f"{place} holds tables of something else ({', '.join(others[:5])}): name an empty "
            "database or another file for the desk's store"
        )
        raise StoreError(msg)
    TABLES.create_all(connection)
    text = f"CREATE TABLE {_VERSION.name} (version_num VARCHAR(32) NOT NULL, "
    pin = f"CONSTRAINT {_VERSION.name}_pkc PRIMARY KEY (version_num))"
    connection.exec_driver_sql(text + pin)
    connection.execute(sa.insert(_VERSION).values(version_num=HISTORY[-1]))


def run_steps(connection: sa.Connection, to: str = "head", steps: str = _STEPS) -> None:
    """Run the steps that are missing, in the transaction that is open.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        On SQLite with foreign keys off.
    to : str
        State to reach.
    steps : str
        Where the steps are, as Alembic names a place.
    """
    from alembic import command  # noqa: PLC0415 - only for a store that is behind
    from alembic.config import Config  # noqa: PLC0415 - as above

    config = Config()
    config.set_main_option("script_location", steps)
    config.set_main_option("path_separator", "os")
    config.attributes.update({"connection": connection, "tables": TABLES})
    command.upgrade(config, to)


def _check_keys(connection: sa.Connection) -> None:
    if connection.dialect.name != "sqlite":
        return
    lost = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
    if lost:
        tables = ", ".join(sorted({str(row[0]) for row in lost}))
        msg = f"after the change of tables {len(lost)} rows point nowhere ({tables}): undone"
        raise StoreError(msg)
