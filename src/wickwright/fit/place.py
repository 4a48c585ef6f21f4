"""Where a lamp stands."""

from __future__ import annotations

from dataclasses import dataclass

from wickwright.physics.air import pressure_at

__all__ = ["SEA_LEVEL_PRESSURE", "Place"]

SEA_LEVEL_PRESSURE = 101325.0
"""Of the standard atmosphere [Pa] (source key ``usstd1976``)."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a lamp stands.

    Attributes
    ----------
    elevation : float
        Above sea level [m].
    measured : float or None
        Air pressure read from a barometer there, not reduced to sea level [Pa]; None takes
        that of the standard atmosphere at the elevation.
    """

    elevation: float = 0.0
    measured: float | None = None

    @property
    def pressure(self) -> float:
        """Air pressure there [Pa]: measured, or of the standard atmosphere."""
        return pressure_at(self.elevation) if self.measured is None else self.measured

    @property
    def ratio(self) -> float:
        """Air pressure over that at sea level; never above 1, so that no lamp needs less."""
        return min(1.0, self.pressure / SEA_LEVEL_PRESSURE)

    @property
    def scale(self) -> tuple[int, int]:
        """What heights are scaled by here, as numerator and denominator.

        Air pressure at sea level and here in whole pascals, so that search and audit come
        to the same tenth of a millimetre.
        """
        return round(SEA_LEVEL_PRESSURE), round(self.ratio * SEA_LEVEL_PRESSURE)

    def chimney_needed(self, least: float) -> float:
        """Return the least chimney height here.

        Parameters
        ----------
        least : float
            Least height at sea level [m].

        Returns
        -------
        float
            Height that gives the same draft here [m]: draft is proportional to height and
            to air pressure (source key ``draft``).
        """
        return least / self.ratio
