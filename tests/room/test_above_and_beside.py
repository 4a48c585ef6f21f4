from __future__ import annotations

import pytest
from tests.support.rooms import ROOM_AIR, SEA_LEVEL

from wickwright.room.above import (
    LAWS,
    Column,
    column_of,
    extrapolated,
    height_that_cools,
    rise_by,
    rises_at,
)
from wickwright.room.beside import RADIANT_SHARE, distance_that_cools, flux_held, surface_beside
from wickwright.room.checks import RoomError
from wickwright.room.materials import TOLERANCES, tolerance_of
from wickwright.terms.source import SOURCES

LAMP = column_of(
    heat=780.0, diameter=0.045, exit_temperature=690.0, air=ROOM_AIR, pressure=SEA_LEVEL
)


def test_near_the_top_the_gas_is_as_it_left() -> None:
    """A plume law would be trusted where none holds."""
    there = rises_at(LAMP, 0.09)
    assert there.exit_zone
    assert there.low == there.high == pytest.approx(690.0)
    assert not rises_at(LAMP, 0.091).exit_zone


def test_the_spread_of_the_laws_is_shown() -> None:
    """One law would stand for three."""
    there = rises_at(LAMP, 0.5)
    assert there.high - there.low > 10.0


def test_a_lamp_is_an_extrapolation_of_all_three_laws() -> None:
    """An answer from far outside the measured fires would come without a word."""
    assert [valid.formula for valid in extrapolated(LAMP)] == [
        "heskestad_rise",
        "mccaffrey_rise",
        "alpert_rise",
    ]
    fire = Column(2e4, 1.4e4, 0.3, 1000.0, ROOM_AIR, SEA_LEVEL)
    assert [valid.formula for valid in extrapolated(fire)] == ["alpert_rise"]


def test_thin_air_is_hotter_by_the_law_that_knows_pressure() -> None:
    """A ceiling at 5000 ft would be thought as cool as one at sea level."""
    high = Column(780.0, 546.0, 0.045, 690.0, ROOM_AIR, 84311.0)
    ratio = rise_by("Heskestad", high, 0.5) / rise_by("Heskestad", LAMP, 0.5)
    assert ratio == pytest.approx((84311.0 / SEA_LEVEL) ** (-2 / 3), rel=1e-9)


def test_a_narrow_outlet_does_not_break_the_law() -> None:
    """Below its seeming start a plume would have no temperature."""
    narrow = Column(900.0, 600.0, 0.012, 700.0, ROOM_AIR, SEA_LEVEL)
    assert rise_by("Heskestad", narrow, 0.03) == pytest.approx(700.0 - ROOM_AIR)


def test_gas_that_leaves_cool_needs_no_distance() -> None:
    """A bell that stands the gas would be hung higher for nothing."""
    assert height_that_cools(LAMP, 700.0) == tuple((law, 0.0) for law in LAWS)


def test_an_unknown_law_is_refused() -> None:
    """A slip of the pen would end in a bare KeyError."""
    with pytest.raises(RoomError) as refused:
        rise_by("Heskstad", LAMP, 0.5)
    assert str(refused.value) == (
        "There is no plume law 'Heskstad': the laws are Heskestad, McCaffrey, Alpert."
    )


def test_every_fault_of_a_chimney_is_told_at_once() -> None:
    """The user would mend one number after the other."""
    with pytest.raises(RoomError) as refused:
        Column(0.0, 5.0, 0.0, 280.0, ROOM_AIR, 0.0)
    assert refused.value.faults == (
        (
            "The heat of the lamp is 0 W; allowed is 1 W to 100000 W. A mantle lamp gives 700 to "
            "950 W."
        ),
        "The heat in the gas is 5 W; allowed is 1 W to 0 W. It is part of the lamp's.",
        "The bore of the chimney's top is 0 m; allowed is 0.005 m to 0.5 m. Measure inside.",
        (
            "The temperature of the gas is 280 K; allowed is 293.15 K to 2500 K. It is hotter than "
            "air."
        ),
        "The air pressure is 0 Pa; allowed is 45000 Pa to 110000 Pa. Give pascal at the place.",
    )


def test_a_height_below_the_top_is_refused() -> None:
    """A thing inside the chimney would be judged as above it."""
    with pytest.raises(RoomError) as refused:
        rises_at(LAMP, -0.1)
    assert str(refused.value) == (
        "The height over the chimney is -0.1 m; allowed is 0 m to 50 m. Measure from its top."
    )


def test_a_limit_below_the_room_is_refused() -> None:
    """An endless distance would be advised."""
    with pytest.raises(RoomError) as above:
        height_that_cools(LAMP, ROOM_AIR)
    assert str(above.value) == (
        "The temperature allowed above the lamp is 293.15 K; allowed is 294.15 K to 2500 K. The "
        "room itself is warmer: cool the room, or ask for more."
    )
    with pytest.raises(RoomError) as beside:
        distance_that_cools(780.0, 1.5, ROOM_AIR, ROOM_AIR, SEA_LEVEL)
    assert str(beside.value) == (
        "The share that is radiation is 1.5; allowed is 0 to 1. Assume 0.2 to 0.4. The temperature "
        "allowed beside the lamp is 293.15 K; allowed is 294.15 K to 2500 K. The room itself is "
        "warmer: cool the room, or ask for more."
    )


def test_no_radiation_warms_nothing() -> None:
    """A surface in the dark would be warm."""
    assert surface_beside(0.0, ROOM_AIR, SEA_LEVEL) == pytest.approx(ROOM_AIR, abs=1e-6)
    assert flux_held(ROOM_AIR, ROOM_AIR, SEA_LEVEL) == pytest.approx(0.0, abs=1e-9)


def test_negative_radiation_is_refused() -> None:
    """A lamp would cool a curtain."""
    with pytest.raises(RoomError) as refused:
        surface_beside(-1.0, ROOM_AIR, SEA_LEVEL)
    assert str(refused.value) == (
        "The radiant heat is -1 W/m2; allowed is 0 W/m2 to 1e+06 W/m2. Ask radiant_flux for it."
    )


def test_the_distance_beside_is_that_of_the_worse_assumption() -> None:
    """A curtain would hang by the milder end of an assumed band."""
    near, far = (
        distance_that_cools(780.0, share, 350.15, ROOM_AIR, SEA_LEVEL)
        for share in (RADIANT_SHARE.low, RADIANT_SHARE.high)
    )
    assert far == pytest.approx(near * 2**0.5)


def test_every_material_has_one_limit_and_a_source() -> None:
    """A material would be judged twice, or by nobody's word."""
    assert len({entry.material for entry in TOLERANCES}) == len(TOLERANCES)
    assert {entry.source for entry in TOLERANCES} <= set(SOURCES)


def test_an_unknown_material_is_refused_with_the_nearest() -> None:
    """A slip of the pen would end in a bare KeyError."""
    with pytest.raises(RoomError) as refused:
        tolerance_of("wod")
    assert str(refused.value) == (
        "There is no heat limit for 'wod': did you mean 'wood'? the limits are of wood, plaster, "
        "cloth, parchment, soda-glass, glass, porcelain, brass, nickel-brass, aluminium, steel, "
        "cast-iron."
    )
