from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from itertools import combinations
from typing import TYPE_CHECKING

import pytest
from tests.support.command import said
from tests.support.demo import demo

from wickwright.answers import which_parts
from wickwright.answers.pictures.lamp_drawing import (
    lamp_drawing,
    section_of,
    small_lamp_drawing,
    sold_drawing,
)
from wickwright.catalogue.assembly import Assembly
from wickwright.catalogue.records import Wish
from wickwright.charts.lamp_section import lamp_section, pixels_per_metre
from wickwright.charts.lettering import width_of
from wickwright.fit.request import Request, situation
from wickwright.fit.routes import NotKnown, Routes
from wickwright.fit.stance import placed, stance
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.charts.lamp_piece import Section
    from wickwright.fit.request import Situation

SVG = "{http://www.w3.org/2000/svg}"
LAMPS = sorted(demo().book.lamps)
WISHES = ("renew-chimney", "to-electric", "add-shade", "complete-with-shade")
NEAR = 0.11
"""Two roundings to a tenth of a pixel, and a hair [px]."""


def _now(lamp: str, *lost: str) -> Situation:
    return situation(demo(), Request(lamp, Wish("as-it-is", "as it is", ()), lost=lost))


def _section(lamp: str) -> Section:
    return section_of(demo(), lamp, demo().sold(lamp))


@cache
def _drawing(lamp: str) -> ET.Element:
    return ET.fromstring(lamp_drawing(demo(), _now(lamp), None, Units()))  # noqa: S314 - our own


@cache
def _by_route(lamp: str, wish: str) -> str | None:
    answer = which_parts(demo(), lamp, wish, elevation=1700.0)
    if not isinstance(answer, Routes | NotKnown):
        return None
    return lamp_drawing(demo(), answer.now, answer.routes[0], Units())


def _groups(drawing: ET.Element, name: str) -> dict[str, list[ET.Element]]:
    found: dict[str, list[ET.Element]] = {}
    for one in drawing.iter(f"{SVG}g"):
        if one.get(name):
            found.setdefault(one.get(name, ""), []).append(one)
    return found


def _ends(path: str) -> list[tuple[float, float]]:
    """Ends of all lines and curves of a path, handles left out [px]."""
    found: list[tuple[float, float]] = []
    for letter, numbers in re.findall(r"([MLlc])([-\d. ]+)", path):
        *_, x, y = (float(number) for number in re.findall(r"-?[\d.]+", numbers))
        before = found[-1] if letter in "lc" else (0.0, 0.0)
        found.append((before[0] + x, before[1] + y))
    return found


def _all_ends(group: ET.Element) -> list[tuple[float, float]]:
    return [end for one in group.iter(f"{SVG}path") for end in _ends(one.get("d", ""))]


def _box(text: ET.Element) -> tuple[float, float, float, float]:
    size, x, y = (float(text.get(key, "12")) for key in ("font-size", "x", "y"))
    wide = width_of(text.text or "", size, bold=text.get("font-weight") == "bold")
    share = {"end": 1.0, "middle": 0.5}.get(text.get("text-anchor", ""), 0.0)
    return x - share * wide, y - 0.75 * size, x + (1 - share) * wide, y + 0.2 * size


def _level_boxes(drawing: ET.Element) -> list[tuple[float, float, float, float]]:
    """Boxes of the words that are not turned along a dimension line."""
    turned = {
        text
        for group in drawing.iter(f"{SVG}g")
        if "rotate" in group.get("transform", "")
        for text in group.iter(f"{SVG}text")
    }
    return [_box(text) for text in drawing.iter(f"{SVG}text") if text not in turned]


@pytest.mark.parametrize("lamp", LAMPS)
def test_heights_are_those_of_the_stance(lamp: str) -> None:
    """A part would be drawn at another height or scale than it stands."""
    drawing, scale = _drawing(lamp), pixels_per_metre(_section(lamp))
    front, behind = _groups(drawing, "data-part"), _groups(drawing, "data-behind")
    grounds = []
    for it in placed(demo().sold(lamp)):
        flex = it.part.kind == "burner" and it.part.service == "electric"
        if it.part.height is None or it.part.kind == "wick" or flex:
            continue
        groups = (*front[it.part.id], *behind.get(it.part.id, ()))
        drawn = [y for group in groups for _, y in _all_ends(group)]
        tall = (it.top - it.foot) * scale
        assert max(drawn) - min(drawn) == pytest.approx(tall, abs=NEAR), it.part.id
        grounds.append(max(drawn) + it.foot * scale)
    assert grounds == pytest.approx([grounds[0]] * len(grounds), abs=NEAR)


@pytest.mark.parametrize("lamp", LAMPS)
def test_no_words_overlap_or_leave_the_paper(lamp: str) -> None:
    """Labels would be printed over each other, or cut off at the edge."""
    for drawing in (_drawing(lamp), *_drawn_routes(lamp)):
        boxes = _level_boxes(drawing)
        for one, two in combinations(boxes, 2):
            apart = one[2] <= two[0] or two[2] <= one[0] or one[3] <= two[1] or two[3] <= one[1]
            assert apart, (one, two)
        wide, tall = float(drawing.get("width", "0")), float(drawing.get("height", "0"))
        assert all(x0 >= 0 and y0 >= 0 and x1 <= wide and y1 <= tall for x0, y0, x1, y1 in boxes)


def _drawn_routes(lamp: str) -> list[ET.Element]:
    texts = [_by_route(lamp, wish) for wish in WISHES]
    return [ET.fromstring(text) for text in texts if text is not None]  # noqa: S314 - our own


@pytest.mark.parametrize("lamp", LAMPS)
def test_first_routes_are_drawn_small_and_plain(lamp: str) -> None:
    """A page that allows no styles, scripts or outside pictures would drop part of a drawing."""
    texts = [text for wish in WISHES if (text := _by_route(lamp, wish)) is not None]
    assert texts
    for text in texts:
        drawing = ET.fromstring(text)  # noqa: S314 - our own
        assert len(text.encode()) < 20_000
        assert {one.tag.removeprefix(SVG) for one in drawing.iter()} <= {
            "svg", "title", "desc", "rect", "g", "path", "circle", "text",
        }  # fmt: skip
        names = {name for one in drawing.iter() for name in one.attrib}
        assert not names & {"style", "class", "id", "href"}
        assert "url(" not in text


@pytest.mark.parametrize("lamp", LAMPS)
def test_tip_line_goes_from_the_edge_of_the_foot_to_the_centre_of_mass(lamp: str) -> None:
    """The angle drawn would not be the one the lamp tips at."""
    drawing = _drawing(lamp)
    worst = min(stance(demo().sold(lamp), demo().settings), key=lambda one: one.angle)
    lines = [one for one in drawing.iter(f"{SVG}path") if one.get("data-tip")]
    if worst.reach == 0.0:
        assert not lines
        return
    if _section(lamp).balances[0].centre != worst.centre:  # on a bulb, dry
        worst = min(stance(demo().sold(lamp), demo().settings, dry=True), key=lambda it: it.angle)
    (line,) = lines
    ends = [float(at) for at in re.findall(r"-?[\d.]+", line.get("d", ""))]
    (x0, y0, x1, y1), scale = ends, pixels_per_metre(_section(lamp))
    assert (x0 - x1, y0 - y1) == pytest.approx(
        (worst.reach * scale, worst.centre * scale), abs=0.02
    )
    assert math.atan2(x0 - x1, y0 - y1) == pytest.approx(worst.angle, abs=2e-4)
    base = _groups(drawing, "data-part")[placed(demo().sold(lamp))[0].part.id][0]
    feet = [x for x, y in _all_ends(base) if abs(y - y0) < NEAR]
    assert max(feet) == pytest.approx(x0, abs=NEAR)


def test_the_drawing_says_in_words_what_it_shows() -> None:
    """A screen reader would not tell which lamp it is, what is new, its heights and its slope."""
    text = _by_route("WH-302", "renew-chimney")
    assert text is not None
    drawing = ET.fromstring(text)  # noqa: S314 - our own
    assert drawing.findtext(f"{SVG}title") == "Tirrick shelf lamp (WH-302)"
    assert drawing.findtext(f"{SVG}desc") == (
        "New: Converting gallery for basket 2, plain-foot seat (GA-2450); "
        "Chimney, plain foot, tall (CH-3371). "
        "Stays: Tirrick shelf foot, three toes (BA-2135); "
        "Tirrick font, brass, small, fine collar (FO-2230); Hollin burner, fine (BU-2200); "
        "Wick, size 2, stitched (WI-2050); Flame spreader, size 2 (SP-2100); "
        "Mantle on a ring, size 2 (MA-2100). "
        "Put aside (hatched, dashed): R1 Chimney, quarter-turn 2, standard, CH-2296; "
        "R2 Gallery for basket 2, quarter-turn seat, GA-2410. "
        "Heights: mantle 76.0 mm, chimney 371.0 mm, whole lamp 594.0 mm. "
        "Centre of mass: 158.6 mm empty, 151.1 mm half full, 146.0 mm full. "
        "Tips at a slope of 9.3°; it must stand on 8.0°."
    )


def test_the_small_drawing_is_half_as_large_and_names_part_numbers_only() -> None:
    """A fit sheet would be filled by the drawing, or show parts nobody can look up."""
    answer = which_parts(demo(), "WH-302", "renew-chimney", elevation=1700.0)
    assert isinstance(answer, Routes)
    text = small_lamp_drawing(demo(), answer.now, answer.routes[0])
    small = ET.fromstring(text)  # noqa: S314 - our own
    large = ET.fromstring(_by_route("WH-302", "renew-chimney") or "")  # noqa: S314 - our own
    tall = [
        max(ends) - min(ends)
        for drawing in (small, large)
        for ends in [[y for _, y in _all_ends(_groups(drawing, "data-part")["CH-3371"][0])]]
    ]
    assert 2 * tall[0] == pytest.approx(tall[1], abs=3 * NEAR)
    said_there = [it.text or "" for it in small.iter(f"{SVG}text")]
    assert {"CH-3371", "GA-2450", "Put aside: R1 CH-2296, R2 GA-2410"} <= set(said_there)
    assert not any("Chimney" in words for words in said_there)


def test_a_lamp_as_sold_is_the_lamp_as_it_is_with_all_its_parts() -> None:
    """The fit book would show another lamp than a call about it."""
    drawn = sold_drawing(demo(), "DU-402", Units())
    assert drawn == lamp_drawing(demo(), _now("DU-402"), None, Units())


def test_what_hangs_has_no_tip_line() -> None:
    """A hanging lamp would be said to tip."""
    assert _section("DU-403").tip is None


def test_electric_lamp_has_no_fuel() -> None:
    """A drawing would show fuel in a lamp that runs on a bulb."""
    assert [it.fuel for it in _section("BX-702").pieces if it.kind == "font"] == [None]


def test_what_is_lost_is_dashed_and_not_balanced() -> None:
    """A broken glass would be drawn as if it were there, and weighed."""
    text = lamp_drawing(demo(), _now("DU-401", "chimney"), None, Units())
    drawing = ET.fromstring(text)  # noqa: S314 - our own
    (glass,) = _groups(drawing, "data-part")["CH-3296"]
    assert glass.get("stroke-dasharray") == "5 3"
    assert "Missing: Chimney, plain foot, standard (CH-3296)." in text
    assert "Parts are missing: no centre of mass is drawn." in text
    assert not _groups(drawing, "data-centre")


def test_found_parts_without_a_base_are_drawn() -> None:
    """A caller with a burner and a gallery from a barn would get no picture."""
    wish = Wish("as-it-is", "as it is", ())
    found = Request("DU-401", wish, have=("BU-3200", "GA-3430", "CH-3296"), bare=True)
    text = lamp_drawing(demo(), situation(demo(), found), None, Units())
    drawing = ET.fromstring(text)  # noqa: S314 - our own
    assert set(_groups(drawing, "data-part")) == {"BU-3200", "GA-3430", "CH-3296"}
    assert "There is no base: how the lamp stands is not drawn." in text


def test_names_are_written_as_they_are() -> None:
    """A name with a sign of XML in it would break the page."""
    section = _section("DU-401")
    odd = tuple(replace(it, label='Foot <b> & "rim"') for it in section.pieces[:1])
    text = lamp_section(
        replace(section, title="A & <B>", pieces=(*odd, *section.pieces[1:])), Units()
    )
    drawing = ET.fromstring(text)  # noqa: S314 - our own
    assert drawing.findtext(f"{SVG}title") == "A & <B>"
    assert any('Foot <b> & "rim"' in (it.text or "") for it in drawing.iter(f"{SVG}text"))


def test_nothing_to_draw_is_told() -> None:
    """A lamp without a part would be a blank sheet."""
    section = section_of(demo(), "x", Assembly(None))
    with pytest.raises(ValueError, match="there is no lamp to draw") as caught:
        lamp_section(section, Units())
    assert str(caught.value) == "there is no lamp to draw: the caller has no part of it yet"


def test_new_and_aside_are_marked(tmp_path: Path) -> None:
    """What is sent, or taken off, would look like what stays."""
    path = tmp_path / "a.svg"
    found = said("fit", "WH-302", "renew-chimney", "--at", "1700m", "--drawing", str(path))
    assert (found.code, found.err) == (0, "")
    drawing = ET.fromstring(path.read_text("utf-8"))  # noqa: S314 - our own
    for part, group in _groups(drawing, "data-part").items():
        yellow = any(one.get("fill") == "#f4c430" for one in group[0].iter(f"{SVG}path"))
        heavy = any(one.get("stroke-width") == "2" for one in group[0].iter(f"{SVG}path"))
        assert (yellow, heavy) == (part in {"GA-2450", "CH-3371"},) * 2, part
    assert set(_groups(drawing, "data-aside")) == {"GA-2410", "CH-2296"}
    letters = [
        it.text for it in drawing.iter(f"{SVG}text") if re.fullmatch(r"[A-Z]\d?", it.text or "")
    ]
    assert sorted(filter(None, letters)) == ["A", "B", "R1", "R2"]


def test_picture_is_a_png(tmp_path: Path) -> None:
    """A file named .png would hold something else."""
    path = tmp_path / "a.png"
    assert said("fit", "WH-302", "renew-chimney", "--drawing", str(path)).code == 0
    assert path.read_bytes().startswith(b"\x89PNG\r\n")


def test_several_lamps_are_not_drawn(tmp_path: Path) -> None:
    """One of several lamps would be drawn as if it were all."""
    found = said("fit", "WH-301,WH-302", "renew-chimney", "--drawing", str(tmp_path / "a.svg"))
    assert found.err == "Error: --drawing is for one lamp: ask for the lamps one by one\n"
    assert not list(tmp_path.iterdir())


def test_no_finished_lamp_is_told(tmp_path: Path) -> None:
    """A caller with no way to the wish would get a drawing of something."""
    path = str(tmp_path / "a.svg")
    found = said("fit", "WH-302", "renew-chimney", "--budget", "1", "--drawing", path)
    assert found.err == (
        "Error: there is no finished lamp to draw: ask without --drawing for the reason\n"
    )
