from __future__ import annotations

import pytest
from tests.support.rooms import HOUR, a_lamp

from wickwright.physics.combustion import DODECANE, KEROSENE
from wickwright.room.burning import (
    Burning,
    Exchange,
    burning_of_fuel,
    burning_of_heat,
    together,
)
from wickwright.room.checks import RoomError
from wickwright.room.people import PEOPLE, SEATED
from wickwright.terms.source import SOURCES


def test_heat_and_fuel_are_one_lamp() -> None:
    """A lamp known by its heat would burn other fuel than one known by its fuel."""
    by_fuel = a_lamp(65.0)
    by_heat = burning_of_heat(by_fuel.heat)
    assert by_heat.fuel == pytest.approx(by_fuel.fuel, rel=1e-12)
    assert by_heat.exchange.oxygen == pytest.approx(by_fuel.exchange.oxygen, rel=1e-12)


def test_burning_keeps_mass() -> None:
    """Fuel and oxygen would not weigh as much as what they burn to."""
    for fuel in (KEROSENE, DODECANE):
        lamp = burning_of_fuel(1.0, fuel)
        made = lamp.exchange.carbon_dioxide + lamp.exchange.water
        assert made == pytest.approx(1.0 + lamp.exchange.oxygen, rel=1e-9)


def test_nothing_together_is_nothing() -> None:
    """An empty room would breathe."""
    assert together([]) == Exchange()
    assert together([SEATED.exchange]) == SEATED.exchange


def test_a_negative_flame_is_refused_with_all_its_faults() -> None:
    """A slip of the sign would freshen the air."""
    with pytest.raises(RoomError) as refused:
        Exchange(-1.0, 0.0, -2.0)
    assert str(refused.value) == (
        "The carbon dioxide given off is -1 kg/s; allowed is 0 kg/s to no upper end. Give the "
        "amount as a positive number: oxygen is what is taken from the air. The oxygen taken is "
        "-2 kg/s; allowed is 0 kg/s to no upper end. Give the amount as a positive number: oxygen "
        "is what is taken from the air."
    )
    assert len(refused.value.faults) == 2


@pytest.mark.parametrize("of", [burning_of_fuel, lambda burnt: Burning(0.0, burnt, Exchange())])
def test_negative_fuel_is_refused(of: object) -> None:
    """A lamp would give fuel back."""
    assert callable(of)
    with pytest.raises(RoomError) as refused:
        of(-1e-5)
    assert str(refused.value) == (
        "The fuel burnt is -1e-05 kg/s; allowed is 0 kg/s to no upper end. Give what the lamp "
        "burns, zero when it is out."
    )


def test_negative_heat_is_refused() -> None:
    """A lamp would cool the room."""
    with pytest.raises(RoomError) as refused:
        burning_of_heat(-5.0)
    assert str(refused.value) == (
        "The heat of the lamp is -5 W; allowed is 0 W to no upper end. Give what the lamp burns, "
        "zero when it is out."
    )


def test_no_number_is_refused() -> None:
    """What is no number would pass as a lamp."""
    with pytest.raises(RoomError):
        burning_of_fuel(float("nan"))


def test_people_lie_in_their_range_and_rise_with_work() -> None:
    """A person at rest would breathe more than one at work, or outside the range given."""
    breathed = [person.exchange.carbon_dioxide for person in PEOPLE]
    assert breathed == sorted(breathed)
    for person in PEOPLE:
        assert person.low < person.exchange.carbon_dioxide < person.high
        assert {person.source, person.water_source} <= set(SOURCES)


def test_a_seated_person_breathes_as_much_as_is_remembered() -> None:
    """About 0.0043 l/s at 0 °C, from memory, not seen, is 30 g/h; a slip of units would show."""
    assert SEATED.exchange.carbon_dioxide * HOUR * 1000 == pytest.approx(30.4, abs=0.5)
    moles = SEATED.exchange.carbon_dioxide / 0.0440095
    assert moles / (SEATED.exchange.oxygen / 0.0319988) == pytest.approx(0.85, rel=1e-9)
