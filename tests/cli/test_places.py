"""Places by name on the command line."""

import json
from pathlib import Path
from unittest import mock

from tests.support.command import said

from wickwright.catalogue.faults import Fault

TAKEN = """\
Place taken: Leadville, Colorado, United States of America: 2,644 people, 3,097
m (surveyed); a house uphill or down in the valley has its own. Is it another
place? Write its country or region behind a comma, or its elevation. Towns and
elevations: GeoNames (geonames.org), CC BY 4.0.

"""


def test_a_town_is_taken_and_said_and_answers_as_its_elevation_does(tmp_path: Path) -> None:
    """If this failed, a town would be taken silently, or at another height than is said."""
    answers = tmp_path / "answers.json"
    answers.write_text("[]", encoding="utf-8")
    for words in (
        ("fit", "WH-302", "renew-chimney"),
        ("fit", "WH-301,WH-302", "renew-chimney"),
        ("burn", "WH-302"),
        ("which", "--lamps", "WH-301,WH-302", "--answers", str(answers)),
        ("why", "WH-302", "dim", "--answers", str(answers)),
    ):
        by_name = said(*words, "--at", "leadville")
        by_height = said(*words, "--at", "3097m")
        assert by_name.out == TAKEN + by_height.out
        assert (by_name.code, by_name.err) == (by_height.code, by_height.err)


def test_a_choice_is_refused_with_all_towns_it_may_be() -> None:
    """If this failed, the program would choose for the adviser."""
    found = said("fit", "WH-302", "renew-chimney", "--at", "Aspen")
    assert (found.code, found.out) == (2, "")
    assert found.err.split("\n\n", 1)[1] == (
        "Error: Invalid value for '--at': 'Aspen' may mean 4 towns: write the whole name with its "
        "country or region, such as 'Aspen, Colorado, US', or the elevation with its unit\n"
        "  Aspen, Colorado, United States of America: 6,882 people, 2,405 m (surveyed)\n"
        "  Aspen Hill, Maryland, United States of America: 48,759 people, 100 m (surveyed)\n"
        "  Aspendale, Victoria, Australia: 7,285 people, 9 m (terrain model)\n"
        "  Aspendale Gardens, Victoria, Australia: 6,427 people, 6 m (terrain model)\n"
    )


def test_a_machine_is_told_the_town() -> None:
    """If this failed, a machine that sends a name would not know for which place it is answered."""
    for words in (("fit", "WH-302", "renew-chimney"), ("why", "WH-302", "dim")):
        named = json.loads(said(*words, "--at", "Taos, NM", "--json").out)
        height = json.loads(said(*words, "--at", "2124m", "--json").out)
        assert named.pop("town") == {
            "name": "Taos",
            "country": "US",
            "country_name": "United States of America",
            "region": "New Mexico",
            "population": 5740,
            "elevation_m": 2124.0,
            "known": "surveyed",
            "within_m": None,
            "attribution": "Towns and elevations: GeoNames (geonames.org), CC BY 4.0.",
        }
        assert height.pop("town") is None
        assert named == height


def test_a_damaged_table_of_towns_is_told() -> None:
    """If this failed, a broken installation would end in a traceback."""
    fault = Fault("towns.tsv.gz", 0, "", "the file is damaged", "install the program again")
    with mock.patch("wickwright.store.places.read_towns", return_value=(fault,)):
        found = said("fit", "WH-302", "renew-chimney", "--at", "Taos")
    assert (found.code, found.out) == (2, "")
    assert found.err == (
        "Error: the table of towns cannot be used:\n"
        "  towns.tsv.gz: the file is damaged; install the program again\n"
    )
