from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest
from tests.support.command import DEMO_READINGS, said

if TYPE_CHECKING:
    from pathlib import Path

USAGE = (
    "Usage: wickwright burn [OPTIONS] LAMP\nTry 'wickwright burn --help' for help.\n\n"
    "Error: Invalid value for "
)
CHECK = "check the figure and its unit\n"


def refused(*arguments: str) -> str:
    """Return what is said of a request that cannot be used."""
    found = said("burn", *arguments)
    assert (found.code, found.out) == (2, "")
    return found.err


def test_a_lamp_high_up_is_told_with_every_figure_and_its_error_bar() -> None:
    """If this failed, an adviser could not say how a lamp burns where a caller lives."""
    found = said("burn", "DU-401", "--at", "5200ft")
    assert found.code == 0
    assert found.out.startswith(
        "Dunlin table lamp (DU-401) at 1,585 m (837 hPa); wick at its fullest clean flame\n"
        "  with Kame burner (BU-3200), Chimney, plain foot, standard (CH-3296) and Mantle\n"
        "  on a ring, size 3 (MA-3300)\n\n"
        "  - Mind: Chimney, plain foot, standard (CH-3296) starves Kame burner (BU-3200)\n"
        "    here: its fullest clean flame gives 73 % of the 317 lm it gives at sea level\n"
        "    under the least chimney its maker states; permitted: at least 85 %. Take a\n"
    )
    rows = re.findall(r"^  (\S.*?) {2,}(\S.*?)  ± (\S.*?) {2,}([\d ]+)$", found.out, re.MULTILINE)
    assert [row[0] for row in rows] == [
        "Light",
        "Fuel",
        "Fuel by volume",
        "Heat",
        "A filling lasts",
        "Draft",
        "Air drawn",
        "Air drawn over air needed",
        "Flame at the mantle",
        "Mantle",
        "Gas above the mantle",
        "Hottest glass",
        "Gas at the top",
        "Its speed",
        "Above the chimney's top",
        "Beside the mantle",
    ]
    named = set(re.findall(r"^ {2,3}(\d+)  \S", found.out, re.MULTILINE))
    leans = [row[3].split() for row in rows]
    assert all(len(three) == 3 for three in leans)
    assert {number for three in leans for number in three} == named
    assert "Air in the room and a carbon monoxide alarm." in found.out


def test_findings_come_gravest_first() -> None:
    """If this failed, a danger would stand below a remark on the fuel."""
    found = said("burn", "DU-401", "--room", "20m3", "--hours", "8", "--above", "0.2m")
    assert found.code == 1
    order = ["DANGER", "Fault", "Mind", "Note"]
    heads = re.findall(r"^  - (DANGER|Fault|Mind|Note):", found.out, re.MULTILINE)
    assert set(heads) == set(order)
    assert heads == sorted(heads, key=order.index)


def test_a_part_that_is_tried_stands_beside_the_one_that_is_there() -> None:
    """If this failed, nobody could say what the taller chimney is worth."""
    out = said("burn", "DU-401", "--at", "1700m", "--with", "CH-3371").out
    assert "\nTried: 28 % more light, 15 % more fuel.\n" in out
    assert re.search(r"^  Light +285 lm  ± \d+ lm +\(was 222 lm\)  ", out, re.MULTILINE)


def test_pressure_from_a_barometer_takes_the_place_of_the_elevation() -> None:
    """If this failed, a measured pressure would count for less than a guess from a map."""
    by_map = json.loads(said("burn", "DU-401", "--at", "5000ft", "--json").out)
    read = json.loads(said("burn", "DU-401", "--pressure", "843.111hPa", "--json").out)
    assert read["figures"]["light"]["light_lm"] == pytest.approx(
        by_map["figures"]["light"]["light_lm"], rel=1e-4
    )
    assert read["place"]["elevation_m"] == pytest.approx(1524.0, abs=0.1)


def test_a_room_names_what_was_assumed_of_it() -> None:
    """If this failed, a guessed air change would pass for a measured one."""
    out = said("burn", "DU-401", "--room", "40m3", columns=100).out
    assert (
        "Assumed, because nobody measured or said it:\n"
        "  - air changes: median of living rooms of 126 houses; half the homes have less: 0.57 air "
        "changes an\n    hour\n"
        "  - the air that comes in: carbon dioxide: 420 ppm\n"
    ) in out
    assert "The room after 4.0 h\n  Carbon dioxide " in out


def test_units_of_the_user_are_used_throughout() -> None:
    """If this failed, a caller in feet would be answered in metres."""
    found = said(
        "burn", "DU-401", "--at", "1700m", "--units", "us", "--room", "40m3", "--above", "24in"
    )
    figures = found.out.split("\nThe flame\n")[1].split("Each figure leans")[0]
    assert not re.search(r"\d (m|mm|°C|hPa|m³|Pa|cm²|m/s|ml/h)\b", figures)


def test_a_bulb_is_told_as_a_bulb() -> None:
    """If this failed, an electric lamp would be asked for its wick."""
    found = said("burn", "BX-701")
    assert found.code == 0
    assert "gives about 710 lm, give or take 85 lm" in found.out
    assert "Never a bulb\n    over fuel." in found.out


def test_a_lamp_without_a_burner_is_not_known() -> None:
    """If this failed, a lamp that cannot burn would get figures."""
    found = said("burn", "DU-401", "--lost", "burner")
    assert found.code == 3
    assert found.out.startswith(
        "Dunlin table lamp (DU-401) at sea level (1013 hPa)\n  with nothing that burns\n\n"
        "  - Not known: There is no burner on the lamp, so there is no flame to compute.\n"
        "    Put a burner on the lamp, and ask again.\n"
    )


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (
            ("--at", "9000m"),
            (
                f"{USAGE}'--at': 9000m is 9000 m; the desk answers for -430 m "
                "(the lowest shore) to "
                f"6000 m (the highest dwellings): {CHECK}"
            ),
        ),
        (
            ("--pressure", "20hPa"),
            (
                f"{USAGE}'--pressure': 20hPa is out of range for an air "
                "pressure: allowed is 450 hPa "
                "(a storm over the highest dwellings) to 1100 hPa (the "
                "lowest shore in fine weather), "
                f"as a barometer shows it there and not reduced to sea level; {CHECK}"
            ),
        ),
        (
            ("--pressure", "843"),
            (
                f"{USAGE}'--pressure': '843' is not an air pressure: write a "
                "number with one of hPa, "
                "mbar, kPa, Pa, inHg, mmHg, such as 843hPa or 24.9inHg\n"
            ),
        ),
        (
            ("--room", "0m3"),
            (
                f"{USAGE}'--room': 0m3 is out of range for a volume of a "
                "room: allowed is 0.5 m3 (a "
                f"cupboard) to 100000 m3 (a hangar): length by width by height; {CHECK}"
            ),
        ),
        (
            ("--setting", "high"),
            (
                f"{USAGE}'--setting': 'high' is not a setting of the wick: "
                "write fullest, mark, or a "
                "share of the most fuel it gives such as 70%\n"
            ),
        ),
        (
            ("--setting", "5%"),
            (
                "Error: '0.05' is not a setting of the wick: give 'fullest', 'mark', or a share of "
                "the most fuel the wick gives from 0.2 to 1\n"
            ),
        ),
        (
            ("--above", "0m"),
            (
                f"{USAGE}'--above': 0m is out of range for a distance: "
                "allowed is 1 mm to 50 m (the "
                f"plume laws end there); {CHECK}"
            ),
        ),
        (
            ("--beside", "clot:2ft"),
            (
                f"{USAGE}'--beside': There is no heat limit for 'clot': did you mean 'cloth'? the "
                "limits are of wood, plaster, cloth, parchment, soda-glass, "
                "glass, porcelain, brass, "
                "nickel-brass, aluminium, steel, cast-iron.\n"
            ),
        ),
        (
            ("--hours", "0"),
            (
                f"{USAGE}'--hours': 0 is out of range for a time: allowed is "
                "1 min to 720 h (a month); "
                f"{CHECK}"
            ),
        ),
        (
            ("--chart", "light.jpg"),
            f"{USAGE}'--chart': 'light.jpg' ends in neither .svg nor .png: name such a file\n",
        ),
        (
            (
                "--at",
                "1m",
                "--pressure",
                "900hPa",
                "--people",
                "2",
                "--chart-of",
                "room",
                "--chart",
                "a.svg",
            ),
            (
                "Error: --at and --pressure both say where the lamp stands: give one of them\n"
                "--people, --lamps and --air-changes go with a room: say how "
                "large with --room 40m3\n"
                "a chart of the room needs the room: say how large with --room 40m3\n"
            ),
        ),
        (
            ("--room", "40m3", "--lamps", "0", "--people", "-2"),
            (
                "Error: The number of lamps is 0; allowed is 1 to 100. Count those that burn.\n"
                "The number of people is -2; allowed is 0 to 1000. Count who is there.\n"
            ),
        ),
        (
            ("--lost", "burner", "--chart", "a.svg"),
            (
                "Error: there is no flame to draw a chart of: ask without --chart for what is "
                "missing\n"
            ),
        ),
        (
            ("--chart", "/no/such/folder/a.svg"),
            "Error: '/no/such/folder/a.svg' cannot be written: No such file or directory\n",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_what_can(arguments: tuple[str, ...], message: str) -> None:
    """If this failed, a slip of the finger would get an answer, or a riddle."""
    assert refused("DU-401", *arguments) == message


def test_unknown_names_are_told_with_what_was_meant() -> None:
    """If this failed, a wrong number would end in a search through the book."""
    assert refused("DU-410", "--with", "CH-33771") == (
        "Error: there is no lamp 'DU-410' in the fit book: did you mean 'DU-409'? "
        "'wickwright book list lamps' lists them all\n"
        "Error: there is no part 'CH-33771' in the fit book: did you mean 'CH-3371'? "
        "'wickwright book list parts' lists them all\n"
    )


# -- readings from the bench ---------------------------------------------------------------------


def test_readings_are_fitted_and_the_flame_follows_them() -> None:
    """If this failed, a bench full of readings would change nothing."""
    found = said("burn", "DU-401", "--calibrate", str(DEMO_READINGS))
    assert found.code == 0
    assert "24 readings of the burner BU-3200; scatter" in found.out
    head = "Fitted                               value  95 % interval  before\n"
    assert head in found.out
    plain = json.loads(said("burn", "DU-401", "--calibrate", str(DEMO_READINGS), "--json").out)
    fitted = {one["name"]: one for one in plain["calibration"]["fitted"]}
    assert set(fitted) == {
        "passages.loss",
        "passages.laminar",
        "wick.limit",
        "mantle.exchange",
    }
    for one in fitted.values():
        low, high = one["interval"]
        assert low < one["value"] < high
    inputs = {one["name"]: one for one in plain["inputs"]}
    assert inputs["passages.loss"]["value"] == fitted["passages.loss"]["value"]
    assert inputs["passages.loss"]["source"] == "bench"


def test_what_readings_do_not_determine_is_named(tmp_path: Path) -> None:
    """If this failed, one chimney at one place would pass for a whole bench."""
    rows = DEMO_READINGS.read_text(encoding="utf-8").splitlines()
    few = tmp_path / "few.csv"
    few.write_text("\n".join([rows[0], rows[1], rows[7]]), encoding="utf-8")
    out = said("burn", "DU-401", "--calibrate", str(few), columns=120).out
    assert "Not determined by these readings, and left as it was:\n" in out
    assert (
        "  - loss of the burner's air passages, 2: it cannot be told apart from the laminar "
        "resistance of the burner: readings\n    with a chimney of another height would\n"
        "  - most fuel the wick gives, 82 g/h: no reading shows the "
        "wick giving out: a reading with "
        "a chimney so tall that the\n    wick gives out before the air would\n"
    ) in out


def test_every_fault_of_a_file_of_readings_is_told_with_row_and_column(tmp_path: Path) -> None:
    """If this failed, a bench sheet would have to be mended one error at a time."""
    sheet = tmp_path / "bench.csv"
    sheet.write_text(
        "lamp,chimney,place,room,setting,fuel,time,illuminance,distance,glass\n"
        "DU-401,CH-3296,9000 m,21 C,fullest,64.6 g,60 min,33.5 lx,1 m,460 C\n"
        "DU-410,CH-3296,40 m,21 C,full,64.6 kg,60 min,33.5 lx,,460 C\n",
        encoding="utf-8",
    )
    assert refused("DU-401", "--calibrate", str(sheet)) == (
        f"Error: the readings '{sheet}' cannot be used:\n"
        "  bench_readings, row 2, place: '9000 m' cannot be: the place may be -430 m (the lowest "
        "shore) to 6000 m (the highest dwellings), or 450 to 1100 hPa; check the figure and its "
        "unit against the bench sheet\n"
        "  bench_readings, row 3, distance: there is an illuminance without a distance; fill in "
        "both, or neither\n"
        "  bench_readings, row 3, fuel: '64.6 kg' is not a figure with a unit of g, ml; write it "
        "such as 64.2 g\n"
        "  bench_readings, row 3, lamp: there is no lamp 'DU-410'; did you mean 'DU-409'? "
        "write a model number of the table lamps\n"
        "  bench_readings, row 3, setting: 'full' is not a setting; did you mean 'fullest'? write "
        "fullest or set, or leave it blank\n"
    )


def test_readings_of_another_burner_are_refused() -> None:
    """If this failed, a flat-wick lamp would burn by the figures of a mantle lamp."""
    assert refused("TU-601", "--calibrate", str(DEMO_READINGS)) == (
        "Error: the readings are of the burner BU-3200, the lamp has BU-6100: fit readings of its "
        "own burner\n"
    )


# -- charts --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chart_of", "title"),
    [
        (
            "elevation",
            (
                "At 1,700 m CH-3296 leaves 62 % of its light at sea level; the taller "
                "CH-3371 gives 80 %"
            ),
        ),
        (
            "height",
            (
                "At 1,700 m CH-3296 leaves 62 % of its light at sea level; no height drawn "
                "here gives it all back"
            ),
        ),
        ("room", "With a lamp burning, a room of 40.0 m³ passes the guide value after 46 min"),
        ("above", "Keep wood 0.49 m or more above the chimney of this lamp"),
    ],
)
def test_every_chart_says_its_story_in_its_title(chart_of: str, title: str, tmp_path: Path) -> None:
    """If this failed, a chart would show lines and say nothing."""
    path = tmp_path / "chart.svg"
    arguments = ("DU-401", "--at", "1700m", "--room", "40m3", "--above", "0.6m")
    out = said("burn", *arguments, "--chart", str(path), "--chart-of", chart_of).out
    assert out.endswith(f"\nThe chart is in {path}.\n")
    svg = ET.parse(path).getroot()  # noqa: S314 - our own drawing
    assert (svg.findtext("{http://www.w3.org/2000/svg}title") or "") == title


def test_a_chart_is_a_picture_where_its_name_says_so(tmp_path: Path) -> None:
    """If this failed, a picture for a letter would be text."""
    path = tmp_path / "chart.png"
    said("burn", "DU-401", "--chart", str(path))
    assert path.read_bytes().startswith(b"\x89PNG\r\n")
    assert [one.name for one in tmp_path.iterdir()] == ["chart.png"]


def test_a_chart_of_a_flat_wick_lamp_offers_no_glass_of_mantle_lamps(tmp_path: Path) -> None:
    """If this failed, a chart would advertise a chimney that is made for another lamp."""
    path = tmp_path / "chart.svg"
    said("burn", "TU-601", "--chart", str(path))
    text = path.read_text(encoding="utf-8")
    assert "CH-6214" in text
    assert "CH-33" not in text
