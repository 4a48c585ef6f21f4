from __future__ import annotations

import pytest

from wickwright.catalogue.lists import MATERIALS
from wickwright.fit.expansion import EXPANSIONS, STRANGE, expansion_of, grown
from wickwright.terms.source import SOURCES


def test_every_material_of_the_book_is_in_the_table() -> None:
    """A material could be written in a book and have no growth."""
    assert list(EXPANSIONS) == list(MATERIALS)


@pytest.mark.parametrize("material", [key for key, value in EXPANSIONS.items() if value])
def test_bands_are_in_order_and_sourced(material: str) -> None:
    """A band would be upside down, or a value without a source."""
    found = expansion_of(material)
    assert 0 < found.low <= found.usual <= found.high <= STRANGE.high
    assert found.source in SOURCES


def test_cooling_turns_the_band_round() -> None:
    """In frost the least growth would be taken for the greatest."""
    assert expansion_of("brass").at(-100.0) == pytest.approx((-20.0e-4, -19.0e-4, -18.7e-4))


def test_nothing_grows_at_the_reference() -> None:
    """A size would change at the very temperature it is stated for."""
    assert all(grown(0.066, material, 293.15) == 0.066 for material in EXPANSIONS)


@pytest.mark.parametrize(
    ("material", "hint"),
    [
        ("bras", "did you mean 'brass'?"),
        (
            "xyz",
            (
                "known are brass, nickel-brass, steel, cast-iron, aluminium, glass, soda-glass, "
                "porcelain, cotton, oxide, cloth, parchment, wood"
            ),
        ),
    ],
)
def test_an_unknown_material_is_told(material: str, hint: str) -> None:
    """A misspelt material would grow as something else."""
    with pytest.raises(ValueError, match="material") as caught:
        grown(0.1, material, 300.0)
    known = f"'{material}' is not a material whose growth with heat is known: {hint}"
    assert str(caught.value) == known
