"""A drawing as pixels, the same on every machine."""

from __future__ import annotations

from importlib.resources import files
from typing import Final

__all__ = ["png_of"]

FAMILY: Final = "Source Sans Pro"
"""The font that comes with the package ``font-source-sans-pro``; no font of the machine is
used, so that a bare machine draws the same picture."""


def png_of(svg: str, zoom: int = 2) -> bytes:
    """Turn a drawing into a PNG picture.

    Parameters
    ----------
    svg : str
        As a chart of this package gives it.
    zoom : int
        Pixels of the picture for each pixel of the drawing [-].

    Returns
    -------
    bytes
        A PNG file.

    Raises
    ------
    ValueError
        When the text is no SVG.
    """
    import resvg_py  # noqa: PLC0415 - loaded only when a picture is asked for

    folder = files("font_source_sans_pro") / "files"
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg,
            zoom=zoom,
            skip_system_fonts=True,
            font_files=[str(folder / f"SourceSansPro-{cut}.ttf") for cut in ("Regular", "Bold")],
            font_family=FAMILY,
            sans_serif_family=FAMILY,
        )
    )
