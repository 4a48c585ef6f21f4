from __future__ import annotations

import pytest

from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say


@pytest.mark.parametrize(
    ("value", "kind", "metric", "us"),
    [
        (354.6, Kind.LIGHT, "355 lm", "355 lm"),
        (62e-3 / 3600.0, Kind.MASS_FLOW, "62.0 g/h", "62.0 g/h"),
        (80e-6 / 3600.0, Kind.VOLUME_FLOW, "80.0 ml/h", "2.71 fl oz/h"),
        (0.73, Kind.SPEED, "0.73 m/s", "2.4 ft/s"),
        (2.45, Kind.DRAFT, "2.45 Pa", "0.0098 inH2O"),
        (30e6, Kind.STRESS, "30.0 MPa", "4,351 psi"),
    ],
)
def test_what_is_measured_about_a_flame_is_said_in_both_systems(
    value: float, kind: Kind, metric: str, us: str
) -> None:
    """A caller would be told grams for kilograms, or a draft in no known unit."""
    assert say(Quantity(value, kind), Units()) == metric
    assert say(Quantity(value, kind), Units("us")) == us
