"""Growth of a chimney's seat with heat, in closed form."""

from __future__ import annotations

from wickwright.fit.expansion import EXPANSIONS, grown


def test_brass_seat_around_borosilicate_glass() -> None:
    """A 66 mm seat 100 K warmer would not open by 0.1036 mm (closed form; borosilicate 3.3e-6 \
from ISO 3585, quoted; brass 19.0e-6 from memory, not seen).
    """
    brass, glass = (grown(0.066, material, 393.15) for material in ("brass", "glass"))
    assert round((brass - glass) * 1e3, 4) == 0.1036


def test_handbook_values() -> None:
    """The table would leave the handbook's values: borosilicate 3.3e-6 (ISO 3585, quoted), \
soda-lime 9.1e-6 (data sheet, quoted), brass 18.7 to 20 and steel 11.7 to 12.3e-6 (from memory).
    """
    glass, soda = EXPANSIONS["glass"], EXPANSIONS["soda-glass"]
    brass, steel = EXPANSIONS["brass"], EXPANSIONS["steel"]
    assert glass is not None
    assert soda is not None
    assert brass is not None
    assert steel is not None
    assert (glass.usual, soda.usual) == (3.3e-6, 9.1e-6)
    assert (brass.low, brass.high) == (18.7e-6, 20.0e-6)
    assert (steel.low, steel.high) == (11.7e-6, 12.3e-6)
