"""Black bodies, bands and the light of hot bodies against published values."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wickwright.physics.light import (
    LUMINOUS_EFFICACY,
    PHOTOPIC,
    PHOTOPIC_STEP,
    PHOTOPIC_WAVELENGTHS,
    eye,
    flux_of_candlepower,
    luminance,
    luminous_efficacy,
    luminous_exitance,
    selective_efficacy,
    temperature_exponent,
)
from wickwright.physics.radiation import (
    band_fraction,
    black_exitance,
    concentric_exchange,
    enclosed_exchange,
    fraction_below,
    radiative_coefficient,
    spectral_exitance,
)


# colour-science 0.4.7 with the CIE 1924 observer; luminance, exitance, lm/W, visible share.
@pytest.mark.parametrize(
    ("kelvin", "candelas", "watts", "efficacy", "visible"),
    [
        (1800, 1.17471e5, 5.95253e5, 0.6200, 0.796),
        (1900, 2.41721e5, 7.38969e5, 1.0276, 1.181),
        (2000, 4.63765e5, 9.07260e5, 1.6059, 1.674),
        (2100, 8.37741e5, 1.10278e6, 2.3866, 2.282),
        (2200, 1.43624e6, 1.32832e6, 3.3968, 3.010),
        (2856, 1.97498e7, 3.77263e6, 16.446, 10.53),
    ],
)
def test_black_body(
    kelvin: float, candelas: float, watts: float, efficacy: float, visible: float
) -> None:
    """Light would be credited to the wrong temperature of a mantle."""
    assert luminance(kelvin) == pytest.approx(candelas, rel=1e-5)
    assert black_exitance(kelvin) == pytest.approx(watts, rel=1e-5)
    assert luminous_efficacy(kelvin) == pytest.approx(efficacy, rel=1e-4)
    assert band_fraction(380e-9, 780e-9, kelvin) * 100 == pytest.approx(visible, rel=1e-3)


def test_daylight_temperature() -> None:
    """Daylight would not come out at 95.36 lm/W (colour-science 0.4.7)."""
    assert luminous_efficacy(6500.0) == pytest.approx(95.36, abs=0.005)


@pytest.mark.parametrize(("kelvin", "exponent"), [(1800, 13.69), (1900, 13.01), (2000, 12.40)])
def test_light_against_temperature(kelvin: float, exponent: float) -> None:
    """The light that a cooler flame costs would be wrong (colour-science 0.4.7)."""
    assert temperature_exponent(kelvin) == pytest.approx(exponent, abs=0.006)


def test_one_per_cent_cooler() -> None:
    """20 K off 2000 K would not cost an eighth of the light (0.99**12.4 by hand)."""
    assert luminance(1980.0) / luminance(2000.0) == pytest.approx(0.99**12.4, abs=2e-3)


def test_cutting_the_spectrum_flatters() -> None:
    """Lumens per watt of a cut spectrum, 64.84 (colour-science 0.4.7), would pass for all of it."""
    seen_power = black_exitance(2000.0) * band_fraction(360e-9, 830e-9, 2000.0)
    assert luminous_exitance(2000.0) / seen_power == pytest.approx(64.84, abs=0.005)


def test_eye() -> None:
    """A mistyped value of CIE 1924 (0.503 at 510 and 610 nm, 106.8569 nm in all) shows here."""
    assert eye(555e-9) == pytest.approx(1.0, abs=1e-12)
    assert eye(510e-9) == pytest.approx(0.503, abs=1e-9)
    assert eye(610e-9) == pytest.approx(0.503, abs=1e-9)
    nanometres = np.arange(360.0, 831.0)
    assert eye(nanometres * 1e-9).sum() == pytest.approx(106.8569, abs=2e-4)
    assert eye(300e-9) == eye(900e-9) == 0.0
    assert PHOTOPIC[np.argmax(PHOTOPIC)] == 1.0


def test_five_nanometres_are_fine_enough() -> None:
    """Steps of 1 nm, with straight lines between, would change the light by over 0.05 %."""
    fine = np.arange(360.0, 830.1, 1.0) * 1e-9
    power = eye(fine) * spectral_exitance(fine, np.full_like(fine, 2000.0))
    assert LUMINOUS_EFFICACY * 1e-9 * power.sum() == pytest.approx(
        luminous_exitance(2000.0), rel=5e-4
    )
    assert np.diff(PHOTOPIC_WAVELENGTHS) == pytest.approx(PHOTOPIC_STEP, rel=1e-9)


# Closed form with emissivities 0.6 below 700 nm and 0.05 above, both assumed.
@pytest.mark.parametrize(
    ("kelvin", "efficacy"), [(1800, 7.16), (1900, 11.64), (2000, 17.71), (2100, 25.46)]
)
def test_selective_body(kelvin: float, efficacy: float) -> None:
    """A body that radiates little heat must come out several times better than a black one."""
    ours = selective_efficacy(kelvin, visible=0.6, infrared=0.05)
    assert ours == pytest.approx(efficacy, abs=0.011)


def test_selective_body_without_selection() -> None:
    """With one emissivity for all wavelengths it must be as good as a black body."""
    grey = selective_efficacy(2000.0, visible=0.3, infrared=0.3)
    assert grey == pytest.approx(luminous_efficacy(2000.0), rel=1e-12)


# Luckiesh, Artificial Light, 1920 (text seen): share of the ideal yellow-green source.
@pytest.mark.parametrize(("percent", "efficacy"), [(0.02, 0.14), (0.04, 0.27), (0.19, 1.30)])
def test_ideal_light(percent: float, efficacy: float) -> None:
    """Percentages of the ideal in an old table would turn into wrong lumens per watt."""
    assert LUMINOUS_EFFICACY * percent / 100 == pytest.approx(efficacy, abs=0.005)


def test_candles() -> None:
    """Candles, 4 pi lumens all round or about 10 by old rating, would turn into wrong lumens."""
    assert flux_of_candlepower(1.0) == pytest.approx(12.57, abs=0.005)
    assert flux_of_candlepower(20.0, 10.0) == 200.0


# Incropera, table 12.1, from memory; its older second constant shifts the fifth figure.
@pytest.mark.parametrize(
    ("micron_kelvin", "share"),
    [
        (1000, 0.000321),
        (2000, 0.066728),
        (2898, 0.250108),
        (3000, 0.273232),
        (4000, 0.480877),
        (5000, 0.633747),
        (6000, 0.737818),
        (10000, 0.914199),
    ],
)
def test_band_table(micron_kelvin: float, share: float) -> None:
    """The share of heat below a wavelength would be that of another temperature."""
    assert fraction_below(micron_kelvin * 1e-6, 1.0) == pytest.approx(share, abs=5e-5)


def test_band_by_summing_planck() -> None:
    """Series and expansion would not be the integral of the law they stand for."""
    for low, high in ((0.5e-6, 0.7e-6), (5e-6, 12e-6)):
        waves = np.linspace(low, high, 4001)
        power = np.trapezoid(spectral_exitance(waves, np.full_like(waves, 2000.0)), waves)
        ours = black_exitance(2000.0) * band_fraction(low, high, 2000.0)
        assert ours == pytest.approx(power, rel=1e-6)


def test_exchange_limits() -> None:
    """A vast room, a black one and a pair of plates would not be limits of one formula."""
    common = {"inner_area": 0.1, "inner": 600.0, "outer": 300.0}
    vast = concentric_exchange(ratio=0.0, emissivities=(0.8, 0.3), **common)
    assert vast == pytest.approx(enclosed_exchange(0.8, 0.1, 600.0, 300.0), rel=1e-12)
    black = concentric_exchange(ratio=0.6, emissivities=(0.8, 1.0), **common)
    assert black == pytest.approx(vast, rel=1e-12)
    plates = concentric_exchange(ratio=1.0, emissivities=(0.5, 0.5), **common)
    assert plates == pytest.approx(5.670374419e-9 * (600.0**4 - 300.0**4) / 3.0, rel=1e-12)


def test_radiative_coefficient() -> None:
    """Coefficient times difference would not be the power exchanged."""
    power = radiative_coefficient(0.9, 473.15, 293.15) * 180.0
    assert power == pytest.approx(enclosed_exchange(0.9, 1.0, 473.15, 293.15), rel=1e-12)


def test_wien() -> None:
    """The spectrum would not peak at 2897.77 um K over the temperature (CODATA 2018)."""
    waves = np.linspace(1.4e-6, 1.5e-6, 100001)
    peak = waves[np.argmax(spectral_exitance(waves, np.full_like(waves, 2000.0)))]
    assert peak * 2000.0 == pytest.approx(2.897772e-3, rel=2e-6)
    assert math.isclose(black_exitance(1.0), 5.670374419e-8)
