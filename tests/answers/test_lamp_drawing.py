from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations
from typing import TYPE_CHECKING

import pytest
from tests.support.command import said
from tests.support.demo import demo

from wickwright.answers.lamp_drawing import lamp_svg, section_of
from wickwright.catalogue.assembly import Assembly
from wickwright.charts.lamp_section import lamp_section, pixels_per_metre
from wickwright.charts.lettering import width_of
from wickwright.fit.assemble import assemble
from wickwright.fit.stance import placed, stance
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from pathlib import Path

SVG = "{http://www.w3.org/2000/svg}"
LAMPS = sorted(demo().book.lamps)


def _assembly(lamp: str) -> Assembly:
    book = demo().book
    return assemble([book.parts[key] for key in book.lamps[lamp].as_sold], demo().joiner)


def _drawing(lamp: str) -> ET.Element:
    return ET.fromstring(lamp_svg(lamp, _assembly(lamp), demo().settings, Units()))  # noqa: S314


def _heights(group: ET.Element) -> list[float]:
    paths = [one.get("d", "") for one in group.iter(f"{SVG}path")]
    return [float(y) for one in paths for y in re.findall(r"[ML]\S+ (-?[\d.]+)", one)]


def _box(text: ET.Element) -> tuple[float, float, float, float]:
    size, x, y = (float(text.get(key, "0")) for key in ("font-size", "x", "y"))
    wide = width_of(text.text or "", size, bold=text.get("font-weight") == "bold")
    left = x - wide if text.get("text-anchor") == "end" else x
    return left, y - 0.75 * size, left + wide, y + 0.2 * size


@pytest.mark.parametrize("lamp", LAMPS)
def test_heights_are_those_of_the_stance(lamp: str) -> None:
    """A part would be drawn at another height or scale than it stands."""
    assembly, drawing = _assembly(lamp), _drawing(lamp)
    scale = pixels_per_metre(section_of(lamp, assembly, demo().settings))
    groups = {one.get("data-part"): one for one in drawing.iter(f"{SVG}g") if one.get("data-part")}
    known = [it for it in placed(assembly) if it.part.height is not None and it.part.kind != "wick"]
    grounds = []
    for it in known:
        drawn = _heights(groups[it.part.id])
        assert max(drawn) - min(drawn) == pytest.approx((it.top - it.foot) * scale, abs=0.03)
        grounds.append(max(drawn) + it.foot * scale)
    assert grounds == pytest.approx([grounds[0]] * len(grounds), abs=0.03)


@pytest.mark.parametrize("lamp", LAMPS)
def test_no_words_overlap_or_leave_the_paper(lamp: str) -> None:
    """Labels would be printed over each other, or cut off at the edge."""
    drawing = _drawing(lamp)
    boxes = [_box(text) for text in drawing.iter(f"{SVG}text")]
    for one, two in combinations(boxes, 2):
        apart = one[2] <= two[0] or two[2] <= one[0] or one[3] <= two[1] or two[3] <= one[1]
        assert apart, (one, two)
    wide, tall = float(drawing.get("width", "0")), float(drawing.get("height", "0"))
    assert all(x0 >= 0 and y0 >= 0 and x1 <= wide and y1 <= tall for x0, y0, x1, y1 in boxes)


def test_balance_is_that_of_the_stance() -> None:
    """The centre of mass or the slope drawn would not be the one judged."""
    section = section_of("x", _assembly("DU-402"), demo().settings)
    stands = stance(_assembly("DU-402"), demo().settings)
    assert section.centres == tuple((one.fill, one.centre) for one in stands)
    assert section.tip is not None
    assert section.tip.angle == min(one.angle for one in stands)


def test_what_hangs_has_no_tip_line() -> None:
    """A hanging lamp would be said to tip."""
    assert section_of("x", _assembly("DU-403"), demo().settings).tip is None


def test_electric_lamp_has_no_fuel() -> None:
    """A drawing would show fuel in a lamp that runs on a bulb."""
    section = section_of("x", _assembly("BX-702"), demo().settings)
    assert [it.fuel for it in section.pieces if it.kind == "font"] == [None]


def test_nothing_to_draw_is_told() -> None:
    """A lamp without a base would be a blank sheet."""
    section = section_of("x", Assembly(None), demo().settings)
    with pytest.raises(ValueError, match="there is no lamp to draw") as caught:
        lamp_section(section, Units())
    assert str(caught.value) == "there is no lamp to draw: no part of it stands on a base"


def test_new_and_aside_are_marked(tmp_path: Path) -> None:
    """What is sent, or taken off, would look like what stays."""
    path = tmp_path / "a.svg"
    found = said("fit", "WH-302", "renew-chimney", "--at", "1700m", "--drawing", str(path))
    assert (found.code, found.err) == (0, "")
    drawing = ET.fromstring(path.read_text("utf-8"))  # noqa: S314 - our own
    new = {text.text for text in drawing.iter(f"{SVG}text") if (text.text or "").startswith("NEW")}
    assert new == {
        "NEW Converting gallery for basket 2, plain-foot seat, GA-2450",
        "NEW Chimney, plain foot, tall, CH-3371",
    }
    aside = {one.get("data-aside") for one in drawing.iter(f"{SVG}g")} - {None}
    assert aside == {"GA-2410", "CH-2296"}


def test_picture_is_a_png(tmp_path: Path) -> None:
    """A file named .png would hold something else."""
    path = tmp_path / "a.png"
    assert said("fit", "WH-302", "renew-chimney", "--drawing", str(path)).code == 0
    assert path.read_bytes().startswith(b"\x89PNG\r\n")


def test_several_lamps_are_not_drawn(tmp_path: Path) -> None:
    """One of several lamps would be drawn as if it were all."""
    found = said("fit", "WH-301,WH-302", "renew-chimney", "--drawing", str(tmp_path / "a.svg"))
    assert found.err == "Error: --drawing draws one lamp: ask for the lamps one by one\n"
    assert not list(tmp_path.iterdir())


def test_no_finished_lamp_is_told(tmp_path: Path) -> None:
    """A caller with no way to the wish would get a drawing of something."""
    path = str(tmp_path / "a.svg")
    found = said("fit", "WH-302", "renew-chimney", "--budget", "1", "--drawing", path)
    assert found.err == (
        "Error: there is no finished lamp to draw: ask without --drawing for the reason\n"
    )
