"""An assembled lamp as the flame sees it: numbers, their uncertainty and where each comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.burn.assumptions import (
    AIR_SPREADS,
    MODEL_SPREADS,
    SAYS,
    Assumed,
    general_of,
    leaf_of,
)
from wickwright.burn.checks import BurnError, checked
from wickwright.burn.parts import (
    FULLEST,
    Air,
    Chimney,
    Lamps,
    Mantle,
    Model,
    Passages,
    Wick,
    leaves,
    with_leaf,
)
from wickwright.catalogue.measures import MEASURES
from wickwright.catalogue.records import Service

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part

__all__ = [
    "ASSUMPTION",
    "BurningLamp",
    "Input",
    "burning_lamp",
    "burning_parts",
    "is_flat",
    "set_to",
]

ASSUMPTION: Final = "assumption"
"""Source of a figure that has none."""
_HEIGHT_SPREAD = 0.5e-3  # m, of a height without a stated tolerance
_DEFAULT_MODEL = Model()


@dataclass(frozen=True, slots=True)
class Input:
    """One number the flame was computed from.

    Attributes
    ----------
    name : str
        Such as ``'chimney.height'``.
    says : str
        What it is, in words.
    value, spread : float
        Value and one standard uncertainty [SI unit of the number].
    source : str
        Key of the book's sources or of the bibliography, or ``assumption``.
    part : str
        The part it belongs to; blank for the room and the model.
    default : bool
        True where the book has no figure for the part and a general one was taken.
    """

    name: str
    says: str
    value: float
    spread: float
    source: str
    part: str = ""
    default: bool = False


@dataclass(frozen=True, slots=True)
class BurningLamp:
    """An assembled lamp, ready to be lit.

    Attributes
    ----------
    lamps : Lamps
        One state, the wick at its fullest clean flame.
    inputs : tuple of Input
        Every number with its uncertainty.
    burner, chimney : Part
        The parts that make the flame.
    mantle : Part or None
        The web; None on a flat-wick lamp, or where it is missing.
    flat : bool
        True for a flat wick and a yellow flame.
    mark : float
        Fuel at the mark [kg/s].
    volume : float
        Fuel the font holds [m3]; 0 where the book does not say.
    """

    lamps: Lamps
    inputs: tuple[Input, ...]
    burner: Part
    chimney: Part
    mantle: Part | None
    flat: bool
    mark: float
    volume: float


def _part(assembly: Assembly, kind: str, why: str) -> Part:
    found = assembly.of_kind(kind)
    if found is None:
        msg = f"the lamp has no {kind}, and {why}: put a {kind} on it first"
        raise BurnError(msg)
    return found.part


def _burner(assembly: Assembly) -> Part:
    part = _part(assembly, "burner", "nothing burns without one")
    if part.service is Service.ELECTRIC:
        msg = (
            f"{part.name} ({part.id}) is an electric burner and has no flame: "
            "ask for its bulb instead"
        )
        raise BurnError(msg)
    return part


def is_flat(burner: Part) -> bool:
    """Tell a flat wick by its tube, and where that is not known by its yellow light.

    Parameters
    ----------
    burner : Part
        The burner.

    Returns
    -------
    bool
        True for a flat wick.
    """
    forms = {port.words.get("form") for port in burner.ports if port.joint == "wick"}
    return "flat" in forms or (not forms & {"round"} and "efficacy" in burner.flame)


def _measured(part: Part, kind: str, general: dict[str, Assumed]) -> Iterator[tuple[str, Input]]:
    """Yield each property of a part, the general figure where the book has none."""
    for name, of in MEASURES.items():
        if of.kind != kind or name not in general:
            continue
        leaf, known, fallback = leaf_of(name) or name, part.flame.get(name), general[name]
        says = SAYS.get(leaf, of.says)
        if known:
            yield name, Input(leaf, says, known.value, known.spread, known.source, part.id)
        else:
            assumed = bool(fallback.spread)
            yield (
                name,
                Input(leaf, says, fallback.value, fallback.spread, ASSUMPTION, part.id, assumed),
            )


def _height(chimney: Part) -> Input:
    if chimney.height is None:
        msg = (
            f"the height of {chimney.name} ({chimney.id}) is not in the book, and the draft "
            "follows from it: measure it and write it in the table parts"
        )
        raise BurnError(msg)
    source = chimney.source or ASSUMPTION
    name = "chimney.height"
    return Input(name, SAYS[name], chimney.height, _HEIGHT_SPREAD, source, chimney.id)


def _surroundings(lamps: Lamps) -> Iterator[Input]:
    """Yield the numbers of the room and of the model."""
    spreads = {**AIR_SPREADS, **MODEL_SPREADS}
    for name, value in leaves(lamps):
        if name in spreads:
            source = "usstd1976" if name == "air.pressure" else ASSUMPTION
            if name in ("model.heating_value", "model.density"):
                source = "kerosene-range"
            yield Input(name, SAYS[name], float(value), spreads[name], source)


def burning_lamp(assembly: Assembly, air: Air, model: Model = _DEFAULT_MODEL) -> BurningLamp:
    """Return an assembled lamp as the flame sees it.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    air : Air
        The air of the room.
    model : Model
        What no part says.

    Returns
    -------
    BurningLamp
        With every number, its uncertainty and where it comes from.

    Raises
    ------
    BurnError
        When the lamp has no burner or chimney, is electric, or a figure cannot be.
    """
    burner = _burner(assembly)
    chimney = _part(assembly, "chimney", "without its draft the flame smokes")
    web, font = assembly.of_kind("mantle"), assembly.of_kind("font")
    volume = font.part.fuel.volume if font and font.part.fuel else 0.0
    return burning_parts(burner, chimney, web.part if web else None, air, model, volume=volume)


def burning_parts(
    burner: Part,
    chimney: Part,
    web: Part | None,
    air: Air,
    model: Model = _DEFAULT_MODEL,
    *,
    volume: float = 0.0,
) -> BurningLamp:
    """Return the parts that make a flame as the flame sees them.

    Parameters
    ----------
    burner, chimney : Part
        The parts, of one lamp.
    web : Part or None
        Its mantle.
    air : Air
        The air of the room.
    model : Model
        What no part says.
    volume : float
        Fuel the font holds [m3]; 0 where it is not known.

    Returns
    -------
    BurningLamp
        With every number, its uncertainty and where it comes from.

    Raises
    ------
    BurnError
        When a figure cannot be, or the chimney's height is not known.
    """
    flat = is_flat(burner)
    width = burner.flame.get("wick_width")
    general = general_of(flat=flat, width=width.value if width else None)
    known = dict(_measured(burner, "burner", general))
    known.update(_measured(chimney, "chimney", general))
    known.update(_measured(web or burner, "mantle", general))
    if web is None:
        known["mantle_area"] = Input("mantle.area", SAYS["mantle.area"], 0.0, 0.0, ASSUMPTION)
    mark = known.pop("fuel_mark")
    height = _height(chimney)
    inputs = [height, *known.values()]
    lamps = checked(_lamps(air, model, inputs))
    return BurningLamp(
        lamps=lamps,
        inputs=(*inputs, *_surroundings(lamps)),
        burner=burner,
        chimney=chimney,
        mantle=web,
        flat=flat,
        mark=mark.value,
        volume=volume,
    )


def _lamps(air: Air, model: Model, inputs: list[Input]) -> Lamps:
    blank = Lamps(
        Passages(0.0, 0.0, 0.0, 0.0),
        Wick(0.0, 1.0),
        Mantle(0.0, 0.5, 0.06, 1.0),
        Chimney(0.0, 0.0, 0.0, 0.0, 0.0),
        air,
        model,
    )
    for one in inputs:
        blank = with_leaf(blank, one.name, one.value)
    return blank


def set_to(lamp: BurningLamp, setting: str | float) -> float:
    """Return the fuel a setting of the wick stands for.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp.
    setting : str or float
        ``'fullest'`` (the most light before carbon), ``'mark'``, or a share of the most fuel
        the wick gives, above 0 and at most 1 [-].

    Returns
    -------
    float
        Fuel [kg/s], or :data:`wickwright.burn.parts.FULLEST`.

    Raises
    ------
    BurnError
        When it is none of these.
    """
    if setting == "fullest":
        return FULLEST
    if setting == "mark":
        return lamp.mark
    if isinstance(setting, str) or not _LEAST_SETTING <= setting <= 1.0:
        msg = (
            f"'{setting}' is not a setting of the wick: give 'fullest', 'mark', or a share of "
            f"the most fuel the wick gives from {_LEAST_SETTING} to 1"
        )
        raise BurnError(msg)
    return float(lamp.lamps.wick.limit) * setting


_LEAST_SETTING = 0.2
"""Turned lower, a mantle lamp does not glow and a flat one flickers [-]."""
