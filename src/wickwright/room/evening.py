"""An evening in a room: which lamps, which people, how long, and how the air goes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.room.air import air_after, air_over
from wickwright.room.burning import together
from wickwright.room.checks import Bound, demand
from wickwright.room.ventilation import reading

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.room.air import Air, Room
    from wickwright.room.burning import Burning, Exchange
    from wickwright.room.limits import Limit
    from wickwright.room.people import Person

__all__ = ["Course", "Evening", "course_of", "passing", "who"]

_POINTS: Final = 240


@dataclass(frozen=True, slots=True)
class Evening:
    """What goes on in a room.

    Attributes
    ----------
    room : Room
        The room.
    lamps : tuple of Burning
        The lamps that burn.
    people : tuple of Person
        Who is there.
    duration : float
        How long [s].
    start : Air or None
        The air at the start; None for aired through.
    """

    room: Room
    lamps: tuple[Burning, ...]
    people: tuple[Person, ...] = ()
    duration: float = 4 * 3600.0
    start: Air | None = None

    def __post_init__(self) -> None:
        """Refuse an evening without time."""
        demand(
            Bound(
                "length of the evening", self.duration, 60.0, 30 * 86400.0, "s", "An hour is 3600"
            )
        )

    @property
    def exchange(self) -> Exchange:
        """What lamps and people give to the air and take from it together."""
        lamps = [lamp.exchange for lamp in self.lamps]
        return together([*lamps, *(person.exchange for person in self.people)])

    @property
    def heat(self) -> float:
        """Heat of all lamps [W]."""
        return sum(lamp.heat for lamp in self.lamps)

    @property
    def fuel(self) -> float:
        """Fuel of all lamps [kg/s]."""
        return sum(lamp.fuel for lamp in self.lamps)


@dataclass(frozen=True, slots=True)
class Course:
    """The air of a room over an evening.

    Attributes
    ----------
    room : Room
        The room.
    times : tuple of float
        When, from zero to the end [s].
    airs : tuple of Air
        The air at those times.
    """

    room: Room
    times: tuple[float, ...]
    airs: tuple[Air, ...]

    def readings(self, limit: Limit) -> tuple[float, ...]:
        """Return what a limit is held against, at each time [-]."""
        return tuple(reading(limit, self.room, air) for air in self.airs)


def course_of(evening: Evening, sources: Callable[[Air], Exchange] | None = None) -> Course:
    """Return the air of a room over an evening.

    Parameters
    ----------
    evening : Evening
        What goes on.
    sources : callable or None
        Gives what lamps and people exchange in air that has changed; None for steady
        burning as the evening says.

    Returns
    -------
    Course
        At 241 times.
    """
    room, start = evening.room, evening.start
    times = tuple(evening.duration * point / _POINTS for point in range(_POINTS + 1))
    if sources is not None:
        return Course(room, times, air_over(room, sources, times, start=start))
    given = evening.exchange
    return Course(room, times, tuple(air_after(room, given, time, start) for time in times))


def passing(course: Course, limit: Limit) -> float | None:
    """Return when the air first goes beyond a limit.

    Parameters
    ----------
    course : Course
        The air over the evening.
    limit : Limit
        Of a gas or of the humidity; the moment is held against it, not the mean over its
        time.

    Returns
    -------
    float or None
        Time [s], between two points of the course on a straight line; None when it never
        does.
    """
    sign = -1.0 if limit.at_least else 1.0
    over = [sign * (value - limit.value) for value in course.readings(limit)]
    if over[0] > 0.0:
        return 0.0
    steps = zip(course.times, course.times[1:], over, over[1:], strict=False)
    for early, late, before, after in steps:
        if after > 0.0:
            return early + (late - early) * before / (before - after)
    return None


def who(evening: Evening) -> str:
    """Name what burns and breathes in a room.

    Parameters
    ----------
    evening : Evening
        What goes on.

    Returns
    -------
    str
        Such as ``'2 lamps burning and 1 person there'``.
    """
    lamps, people = len(evening.lamps), len(evening.people)
    burning = f"{lamps} lamp{'' if lamps == 1 else 's'} burning"
    if not people:
        return burning
    return f"{burning} and {people} {'person' if people == 1 else 'people'} there"
