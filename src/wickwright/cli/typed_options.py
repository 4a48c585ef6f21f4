"""Options that take a quantity with its unit, a setting of the wick, or a thing near the lamp."""

from __future__ import annotations

from pathlib import Path

import click

__all__ = [
    "ABOVE",
    "AIR_CHANGE",
    "BESIDE",
    "CSV",
    "PDF",
    "PICTURE",
    "PRESSURE",
    "SETTING",
    "TIME",
    "VOLUME",
]


class Quantity(click.ParamType[float]):
    """A text such as 40m3, in SI units."""

    def __init__(self, quantity: str, name: str) -> None:
        self._quantity = quantity
        self.name = name

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Read the quantity."""
        from wickwright.terms.typed import parse_typed  # noqa: PLC0415 - not needed for --help
        from wickwright.terms.units import UnitsError  # noqa: PLC0415 - not needed for --help

        if not isinstance(value, str):
            return value
        try:
            return parse_typed(value, self._quantity)
        except UnitsError as error:
            self.fail(str(error), param, ctx)


class Setting(click.ParamType["str | float"]):
    """How high the wick is: fullest, mark, or a share such as 70%."""

    name = "setting"
    words = ("fullest", "mark")

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> str | float:
        """Read the setting; the flame says which shares there are."""
        if not isinstance(value, str) or value in self.words:
            return value
        number = value.strip().removesuffix("%")
        try:
            return float(number) * (0.01 if value.strip().endswith("%") else 1.0)
        except ValueError:
            self.fail(
                f"'{value}' is not a setting of the wick: write fullest, mark, or a share of the "
                "most fuel it gives such as 70%",
                param,
                ctx,
            )

    def shell_complete(
        self,
        ctx: click.Context,  # noqa: ARG002 - as click calls it
        param: click.Parameter,  # noqa: ARG002 - as click calls it
        incomplete: str,
    ) -> list[click.shell_completion.CompletionItem]:
        """Offer the two words."""
        from click.shell_completion import CompletionItem as Item  # noqa: PLC0415

        return [Item(word) for word in self.words if word.startswith(incomplete)]


class Near(click.ParamType["tuple[str, float]"]):
    """A distance with what is there before it, such as brass:15cm; wood where nothing is said."""

    name = "[material:]distance"

    def convert(
        self,
        value: str | tuple[str, float],
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> tuple[str, float]:
        """Read material and distance."""
        from wickwright.room.materials import tolerance_of  # noqa: PLC0415 - not for --help
        from wickwright.terms.typed import parse_typed  # noqa: PLC0415 - not for --help

        if not isinstance(value, str):
            return value
        material, colon, distance = value.rpartition(":")
        try:
            known = tolerance_of(material if colon else "wood").material
            return known, parse_typed(distance, "distance")
        except ValueError as error:
            self.fail(str(error), param, ctx)


class Written(click.ParamType[Path]):
    """A file that is written to, known by its ending."""

    name = "file"

    def __init__(self, *endings: str) -> None:
        self.endings = endings

    def convert(
        self, value: str | Path, param: click.Parameter | None, ctx: click.Context | None
    ) -> Path:
        """Look at the ending."""
        path = Path(value)
        if path.suffix.lower() not in self.endings:
            self.fail(f"'{value}' {self._refusal()}", param, ctx)
        return path

    def _refusal(self) -> str:
        first, *more = self.endings
        if more:
            return f"ends in neither {' nor '.join(self.endings)}: name such a file"
        return f"does not end in {first}: name a file that does"


PRESSURE = Quantity("pressure", "pressure")
VOLUME = Quantity("volume", "volume")
TIME = Quantity("time", "time")
AIR_CHANGE = Quantity("air change", "number")
SETTING = Setting()
ABOVE = BESIDE = Near()
PICTURE = Written(".svg", ".png")
PDF = Written(".pdf")
CSV = Written(".csv")
