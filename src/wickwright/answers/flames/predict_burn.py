"""How a lamp burns where it stands: light, fuel, margin to carbon, and what to say of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from wickwright.answers.flames.flame_lights import MEASURED, light_of_bulb
from wickwright.answers.flames.hot_seat import hot_seat
from wickwright.answers.flames.standing_air import INDOORS, standing_air
from wickwright.answers.which_parts import request_of
from wickwright.burn.checks import BurnError
from wickwright.burn.glass_stress import seat_of
from wickwright.burn.judging import findings
from wickwright.burn.lamp import burning_lamp
from wickwright.burn.parts import Model
from wickwright.burn.predicting import predict_lamp
from wickwright.catalogue.measures import MEASURES
from wickwright.catalogue.records import Service, Wish
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import called
from wickwright.fit.request import situation
from wickwright.terms.finding import Finding, Quantity, Severity

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickwright.answers.flames.hot_seat import HotSeat
    from wickwright.answers.flames.standing_air import RoomAir
    from wickwright.burn.error_bars import Estimate
    from wickwright.burn.lamp import BurningLamp
    from wickwright.burn.parts import Air
    from wickwright.burn.predicting import Prediction
    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.place import Place
    from wickwright.terms.finding import Fact

__all__ = [
    "BurnAnswer",
    "Burns",
    "FlameNotKnown",
    "Lack",
    "OnABulb",
    "how_it_burns",
    "lit",
    "on_a_bulb",
    "predict_burn",
]

_MODEL: Final = Model()


def _as_it_is(lamp: BurningLamp) -> BurningLamp:
    return lamp


_NO_WISH: Final = Wish("", "", ())


@dataclass(frozen=True, slots=True)
class Burns:
    """A lamp with a flame.

    Attributes
    ----------
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.
    prediction : Prediction
        Every figure with its error bar.
    seat : HotSeat or None
        Its chimney's seat at the computed temperatures; None where it stands on nothing.
    findings : tuple of Finding
        Gravest first; good ones on the seat are left out.
    """

    assembly: Assembly
    place: Place
    prediction: Prediction
    seat: HotSeat | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class OnABulb:
    """A lamp with an electric burner.

    Attributes
    ----------
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.
    light : Estimate or None
        Of its bulb [lm]; None where there is none of known watts.
    findings : tuple of Finding
        One: the bulb, or that there is none.
    """

    assembly: Assembly
    place: Place
    light: Estimate | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class FlameNotKnown:
    """A lamp whose flame cannot be computed.

    Attributes
    ----------
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.
    measure : tuple of str
        What to measure, by column of the book: of the table ``flames``, or ``height``. Empty
        where a part is missing.
    findings : tuple of Finding
        One: what is missing.
    """

    assembly: Assembly
    place: Place
    measure: tuple[str, ...]
    findings: tuple[Finding, ...]


BurnAnswer = Burns | OnABulb | FlameNotKnown
"""What comes of asking how a lamp burns; three different things."""


def predict_burn(
    compiled: Compiled,
    lamp: str,
    *,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    bare: bool = False,
    elevation: float | None = None,
    pressure: float | None = None,
    room: RoomAir = INDOORS,
    setting: str | float = "fullest",
    model: Model = _MODEL,
    fitted: Callable[[BurningLamp], BurningLamp] = _as_it_is,
) -> BurnAnswer:
    """Say how a lamp burns where it stands.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    have : sequence of str
        Parts on the lamp that it was not sold with; each replaces the one of its kind.
    lost : sequence of str
        Parts or kinds that are broken or gone.
    bare : bool
        True when there is nothing but ``have``.
    elevation : float or None
        Where the lamp stands, above sea level [m]; None is sea level.
    pressure : float or None
        Read from a barometer there, in place of the standard atmosphere's [Pa].
    room : RoomAir
        The air of the room.
    setting : str or float
        ``'fullest'`` (the most light before carbon), ``'mark'``, or a share of the most fuel
        the wick gives, 0.2 to 1 [-].
    model : Model
        What no part says: assumptions, and the fuel.
    fitted : callable
        Puts figures from the bench in place of the book's, as
        :func:`wickwright.burn.calibrating.calibrated` does.

    Returns
    -------
    BurnAnswer
        ``Burns``, ``OnABulb`` or ``FlameNotKnown``.

    Raises
    ------
    UnknownNameError
        When a name is not in the book.
    ValueError
        When elevation, pressure, room or setting is no figure anyone can mean; as
        :class:`wickwright.burn.checks.BurnError` where it is the flame that refuses.
    """
    request = request_of(
        compiled, lamp, _NO_WISH, have, lost, bare=bare, elevation=elevation, pressure=pressure
    )
    assembly = assemble(situation(compiled, request).owned, compiled.joiner)
    return how_it_burns(
        compiled, assembly, request.place, room=room, setting=setting, model=model, fitted=fitted
    )


def how_it_burns(
    compiled: Compiled,
    assembly: Assembly,
    place: Place,
    *,
    room: RoomAir = INDOORS,
    setting: str | float = "fullest",
    model: Model = _MODEL,
    fitted: Callable[[BurningLamp], BurningLamp] = _as_it_is,
) -> BurnAnswer:
    """Say how an assembled lamp burns where it stands.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.
    room, setting, model, fitted
        As for :func:`predict_burn`.

    Returns
    -------
    BurnAnswer
        ``Burns``, ``OnABulb`` or ``FlameNotKnown``.

    Raises
    ------
    BurnError
        When the air, the setting or a figure of the book cannot be.
    """
    burner = assembly.of_kind("burner")
    if burner and burner.part.service is Service.ELECTRIC:
        return on_a_bulb(assembly, place, burner.part)
    lamp = lit(assembly, standing_air(place, room), model)
    if isinstance(lamp, Lack):
        return FlameNotKnown(assembly, place, lamp.measure, (lamp.finding,))
    found = predict_lamp(fitted(lamp), setting)
    seat = hot_seat(compiled, assembly, found)
    said = [*findings(found, seat_of(assembly))]
    if seat and seat.finding.severity > Severity.GOOD:
        said.append(seat.finding)
    said.sort(key=lambda finding: -finding.severity)
    return Burns(assembly, place, found, seat, tuple(said))


def on_a_bulb(assembly: Assembly, place: Place, burner: Part) -> OnABulb:
    """Say what light an electric lamp gives.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.
    burner : Part
        Its electric burner.

    Returns
    -------
    OnABulb
        With the light of its bulb, where its watts are known.
    """
    bulb = assembly.of_kind("bulb")
    light = light_of_bulb(bulb.part) if bulb else None
    if bulb is None or light is None:
        facts = {"burner": called(burner)}
        finding = Finding("flame-no-bulb", Severity.UNKNOWN, (burner.id,), facts)
        return OnABulb(assembly, place, None, (finding,))
    return OnABulb(assembly, place, light, (_bulb_finding(bulb.part, light),))


def _bulb_finding(bulb: Part, light: Estimate) -> Finding:
    facts: dict[str, Fact] = {"bulb": called(bulb), "spread": Quantity(light.spread, light.kind)}
    measured = Quantity(light.value, light.kind)
    return Finding("flame-bulb", Severity.NOTE, (bulb.id,), facts, measured)


class Lack(NamedTuple):
    """What is missing before a flame can be computed.

    Attributes
    ----------
    measure : tuple of str
        What to measure, by column of the book; empty where a part is missing.
    finding : Finding
        What is missing.
    """

    measure: tuple[str, ...]
    finding: Finding


def lit(assembly: Assembly, air: Air, model: Model = _MODEL) -> BurningLamp | Lack:
    """Light a lamp whose burner is not electric.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    air : Air
        The air of the room, checked.
    model : Model
        What no part says.

    Returns
    -------
    BurningLamp or Lack
        The lamp as the flame sees it, or what is missing.
    """
    burner, chimney = assembly.of_kind("burner"), assembly.of_kind("chimney")
    if burner is None:
        return Lack((), Finding("flame-no-burner", Severity.UNKNOWN))
    if chimney is None:
        facts = {"burner": called(burner.part)}
        return Lack((), Finding("flame-no-chimney", Severity.UNKNOWN, (burner.part.id,), facts))
    lack = _unmeasured(burner.part, chimney.part)
    if lack is not None:
        return lack
    try:
        return burning_lamp(assembly, air, model)
    except BurnError as error:
        return Lack((), _refused(burner.part, chimney.part, error))


def _unmeasured(burner: Part, chimney: Part) -> Lack | None:
    if chimney.height is None:
        facts = {"chimney": called(chimney)}
        finding = Finding("flame-no-height", Severity.UNKNOWN, (chimney.id,), facts)
        return Lack(("height",), finding)
    missing = tuple(name for name in MEASURED if name not in burner.flame)
    if not missing:
        return None
    says = tuple(f"the {MEASURES[name].says}" for name in missing)
    named: dict[str, Fact] = {"burner": called(burner), "names": says}
    return Lack(missing, Finding("flame-unmeasured", Severity.UNKNOWN, (burner.id,), named))


def _refused(burner: Part, chimney: Part, error: BurnError) -> Finding:
    facts = {"burner": called(burner), "chimney": called(chimney), "refusal": str(error)}
    return Finding("flame-refused", Severity.UNKNOWN, (burner.id, chimney.id), facts)
