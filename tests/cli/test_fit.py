import json

import pytest
from tests.support.command import said

RENEWED = """\
Tirrick shelf lamp (WH-302) at 1,700 m: A new one for the chimney

What to send (the cheapest of 4 ways)                                  SKD 70.00
  BUY
    GA-2450  Converting gallery for basket 2, plain-foot seat              39.00
             - your gallery GA-2410 does not take CH-3371: the gallery is made
               for a quarter-turn foot, and the chimney for spring fingers;
               CH-2296 was replaced by CH-3296, which needs this gallery
    CH-3371  Chimney, plain foot, tall                                     31.00
             - a new chimney, as you asked
  KEEP
    BA-2135  Tirrick shelf foot, three toes           no longer made
    FO-2230  Tirrick font, brass, small, fine collar  no longer made
    BU-2200  Hollin burner, fine                      no longer made
    WI-2050  Wick, size 2, stitched                   no longer made
    SP-2100  Flame spreader, size 2
    MA-2100  Mantle on a ring, size 2                 no longer made
  PUT ASIDE
    GA-2410  Gallery for basket 2, quarter-turn seat  while stocks last, 3 left
    CH-2296  Chimney, quarter-turn 2, standard        no longer made
  HOW IT BURNS HERE (± one standard uncertainty)
    light  296 lm ± 230 lm        at its fullest clean flame
    fuel   59.3 g/h ± 7.8 g/h     a full font lasts 8.2 h ± 1.1 h
    air    9 % too little ± 12 %  with the wick at its mark
  REMAINS TO BE SAID
  - Mind: With the wick at its mark (65.0 g/h) Hollin burner, fine (BU-2200) has
    119 % of the air it needs here; carbon begins below at least 130 %. Keep the
    wick below its mark: 59.3 g/h burns clean here. Turn down at the first dark
    spot, and have a carbon monoxide alarm.
  - Note: About 26 % more light than before, give or take 7 %, for 16 % more
    fuel.
  - Note: The plain seat of Chimney, plain foot, tall (CH-3371) pulls the glass
    with 0.4 MPa here, the quarter-turn seat of Chimney, quarter-turn 2,
    standard (CH-2296) with 31.0 MPa. Assumed: in the one, 6 spring fingers of 4
    N/mm take up what the foot grows; in the other, lean, crust or a turn takes
    up 50 % of the room that the seat gains hot, and 4 lugs that do not give
    press it back as the metal cools.
  - Stands to 9.3° (limit 8.0°; worst with the font empty).

Other ways, each better in something (fewer parts, or fewer on the lamp that are
'going': no longer made or sold while stocks last); '--all' prints them in full:
      price  parts  going  light  buy
  2   83.50      3      4  +26 %  GA-2450, CH-3371; WI-2100 Wick, size 2
  3   99.00      4      3  +31 %  GA-2450, CH-3371; WI-2100 Wick, size 2;
                                  MA-2300 Mantle on a ring, size 2, current web
  4  177.00      2      2  +21 %  CH-3371; BU-3210 Kame burner kit

To be said with every part:
  - Clear 1-K kerosene only. Never gasoline, never camp fuel: fire and
    explosion.
  - Air in the room and a carbon monoxide alarm. Never leave a burning lamp
    unattended.
  - Glass and metal are hot for long after: let the lamp go out and cool before
    touching it.
  - Local codes, the maker's leaflet and licensed practice come first.
"""

TIPPING = """\
Tirrick shelf lamp (WH-302) at 1,700 m: A glass shade; lost: chimney

It cannot be done.
This cannot all be had:
  - the lamp carries a shade
  - the shade is of glass
because
  - the lamp must not tip
    At best, with SH-1640: The lamp tips at 6.7° when the font is empty; at
    least 8.0° is required.

The nearest that can be done:
  - give up 'the lamp carries a shade'                                 SKD 70.00
    then send Converting gallery for basket 2, plain-foot seat (GA-2450) and
    Chimney, plain foot, tall (CH-3371)
  - give up 'the shade is of glass'                                   SKD 129.00
    then send Converting gallery for basket 2, plain-foot seat (GA-2450),
    Chimney, plain foot, tall (CH-3371), Open-arm holder 73 (HO-2073) and
    Parchment shade 73 (SH-0731)
"""


def test_the_page_of_a_route_can_be_read_out() -> None:
    """If this failed, an adviser would read something else to the caller than was worked out."""
    found = said("fit", "WH-302", "renew-chimney", "--at", "1700m")
    assert (found.code, found.out, found.err) == (0, RENEWED, "")


def test_what_cannot_be_done_names_reasons_and_what_could_be_given_up() -> None:
    """If this failed, an adviser would not know why a glass shade is refused on a short lamp."""
    found = said("fit", "WH-302", "add-glass-shade", "--lost", "chimney", "--at", "1700m")
    assert (found.code, found.out, found.err) == (1, TIPPING, "")


@pytest.mark.parametrize("columns", [80, 100, 120])
@pytest.mark.parametrize("wish", ["renew-chimney", "add-glass-shade", "complete-with-shade"])
def test_no_line_is_longer_than_the_terminal(wish: str, columns: int) -> None:
    """If this failed, lines would break in the middle of a price."""
    out = said("fit", "WH-304", wish, "--at", "1700m", columns=columns).out
    assert max(map(len, out.splitlines())) <= columns


def test_a_wide_terminal_puts_the_reason_beside_the_part() -> None:
    """If this failed, a wide screen would be wasted."""
    out = said("fit", "DU-401", "renew-chimney", columns=120).out
    assert "CH-3296  Chimney, plain foot, standard  24.00  a new chimney, as you asked\n" in out


def test_it_is_said_what_measurement_would_settle_it() -> None:
    """If this failed, 'not known' would leave an adviser with nothing to do."""
    found = said("fit", "TY-101", "renew-burner", "--have", "FO-1160")
    wanted = (
        "It depends on something nobody has measured.\n"
        "Measure, and enter in the fit book:\n"
        "  - diameter of Exhibition font, porcelain (FO-1160)\n"
    )
    assert found.code == 3
    assert wanted in found.out


def test_a_part_nobody_has_is_not_offered_for_a_price_of_nothing() -> None:
    """If this failed, a caller would be promised a chimney that is no longer made."""
    out = said("fit", "TY-102", "keep-seat").out
    assert "give up 'only a chimney that can be had is sent'" not in out
    assert (
        "  - find Chimney, quarter-turn 1, tall (CH-1371) elsewhere: we have    not known\n"
        "    none\n"
    ) in out


def test_several_lamps_are_asked_at_once() -> None:
    """If this failed, a caller who is not sure of the lamp could not be helped."""
    found = said("fit", "WH-301,WH-302", "renew-chimney")
    assert found.code == 0
    assert "What serves all of them                                                SKD 63.00" in (
        found.out
    )


def test_an_electric_lamp_gets_the_cautions_of_wiring() -> None:
    """If this failed, someone would be told about kerosene and not about fuel under a bulb."""
    out = said("fit", "DU-401", "to-electric").out
    assert "Fuel out of the font first" in out
    assert "local electrical code" in out


def test_the_numbers_a_flame_leans_on_are_named_when_asked() -> None:
    """If this failed, nobody could tell which measurement would make an answer surer."""
    out = said("fit", "WH-302", "renew-chimney", "--at", "1700m", "--why").out
    assert (
        """\
    The fuel leans most on least air that burns clean (assumption), laminar
      resistance of the burner (B-2023) and loss of the burner's air passages
      (B-2023).
"""
        in out
    )


def test_what_flames_lean_on_is_named_for_each_of_several_lamps() -> None:
    """If this failed, an option would be taken and say nothing."""
    out = said("fit", "WH-302,DU-401", "renew-chimney", "--why").out
    assert out.count("The light leans most on") == 2


def test_the_light_of_a_bulb_stands_beside_that_of_the_flame() -> None:
    """If this failed, a caller would give up a flame without knowing what a bulb gives."""
    out = said("fit", "WH-301", "to-electric").out
    assert (
        """\
  HOW IT BURNS HERE (± one standard uncertainty)
    light   428 lm ± 51 lm   from its bulb
    before  371 lm ± 278 lm  from its flame
  REMAINS TO BE SAID
  - Stands to 36.4° (limit 8.0°; worst with the font empty).
  - About 15 % more light than before.
"""
        in out
    )


def test_json_has_the_documented_keys_in_order() -> None:
    """If this failed, a web shop that reads the answer would break."""
    found = said("fit", "WH-302", "renew-chimney", "--at", "1700m", "--json")
    plain = json.loads(found.out)
    assert list(plain) == [
        "answer",
        "request",
        "currency",
        "burnt_before",
        "routes",
        "why_not",
        "looked_at",
        "cautions",
        "town",
    ]
    best = plain["routes"][0]
    assert best["price"] == "70.00"
    assert [part["part"] for part in best["buy"]] == ["GA-2450", "CH-3371"]
    assert [reason["why"] for reason in best["buy"][0]["reasons"]] == ["instead", "converts"]
    (stands,) = [one for one in best["findings"] if one["rule"] == "stands"]
    assert stands["permitted"] == {"angle_rad": [pytest.approx(0.13962634), None]}
    assert list(best["flame"]) == [
        "by",
        "light",
        "fuel",
        "heat",
        "run_time",
        "seat",
        "measure",
        "air_to_spare_at_mark",
        "light_gain",
        "fuel_gain",
    ]
    assert best["flame"]["by"] == "flame"
    assert len(best["flame"]["light"]["leans_on"]) == 3


def test_every_unknown_name_is_told_at_once() -> None:
    """If this failed, a user would mend one slip only to meet the next."""
    found = said("fit", "WH-30", "renew-chimny", "--have", "nothing")
    assert found.code == 2
    assert found.err == (
        "Error: there is no lamp 'WH-30' in the fit book: did you mean 'WH-308'? "
        "'wickwright book list lamps' lists them all\n"
        "Error: there is no wish 'renew-chimny' in the fit book: did you mean 'renew-chimney'? "
        "'wickwright book list wishes' lists them all\n"
        "Error: there is no part 'nothing' in the fit book: "
        "'wickwright book list parts' lists them all\n"
    )


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (
            ("--at", "5200"),
            (
                "Invalid value for '--at': '5200' has no unit: 5,200 m, or 5,200 ft, which is "
                "1,585 m: write the unit behind it, such as 5200ft or 1700m"
            ),
        ),
        (
            ("--budget", "1.234"),
            "Invalid value for '--budget': '1.234' is not an amount: write it like 120 or 120.00",
        ),
        (
            ("--tip-limit", "ul15"),
            (
                "Invalid value for '--tip-limit': 'ul15' is none: did you mean 'ul153'? choose "
                "ul153, ul153toy, iec60598-2-4, iec60598-2-7, iec60598-2-10, en15493, iec60335-1"
            ),
        ),
    ],
)
def test_a_value_that_cannot_be_read_says_how_to_write_it(
    arguments: tuple[str, str], message: str
) -> None:
    """If this failed, a slip in a figure would be a riddle."""
    found = said("fit", "WH-302", "renew-chimney", *arguments)
    assert found.code == 2
    assert found.err.endswith(f"\nError: {message}\n")


def test_several_lamps_take_every_option_one_lamp_takes() -> None:
    """If this failed, a budget or a part in hand would be dropped without a word."""
    found = said("fit", "WH-301,WH-302", "renew-chimney", "--at", "1700m", "--count", "3")
    assert found.out.startswith(
        "3 times Whimbrel table lamp (WH-301) or Tirrick shelf lamp (WH-302) at 1,700 m:\n"
        "A new one for the chimney\n\n"
        "What serves all of them                          SKD 70.00 a lamp, 210.00 in all\n"
    )
    converted = said("fit", "WH-301,WH-302", "renew-chimney", "--have", "GA-2450")
    assert "What serves all of them                                                SKD 24.00" in (
        converted.out
    )
    bare = said("fit", "SA-201,SA-202", "complete", "--bare", "--have", "BA-2110,FO-2110")
    assert "BU-2110  Hollin burner kit, coarse      138.00" in bare.out


def test_a_budget_no_shared_purchase_keeps_to_is_said_lamp_by_lamp() -> None:
    """If this failed, an adviser would take 'nothing serves all' for 'nothing can be done'."""
    found = said("fit", "WH-301,DU-401", "renew-chimney", "--budget", "50")
    assert found.code == 1
    assert "Nothing serves all of them: find out which lamp it is.\n" in found.out
    assert "  WH-301         it cannot be done: ask for it alone\n" in found.out
    assert "  DU-401  24.00  CH-3296\n" in found.out


NEVER_THERE = """\
Tirrick shelf lamp (WH-302) at sea level: A new one for the chimney; with
Converting gallery for basket 2, plain-foot seat (GA-2450) on it; lost: GA-2410
and SH-1640
  - Mind: Gallery for basket 2, quarter-turn seat (GA-2410) is named as lost,
    but was not on the Tirrick shelf lamp (WH-302): what was there is Converting
    gallery for basket 2, plain-foot seat (GA-2450); nothing is sent for it. Ask
    the caller again which part is gone; name what else is on the lamp.
  - Mind: Opal dome 164 (SH-1640) is named as lost, but was not on the Tirrick
    shelf lamp (WH-302): it had no shade; nothing is sent for it. Ask the caller
    again which part is gone; name what else is on the lamp.
"""


def test_a_part_named_as_lost_that_was_never_there_is_told() -> None:
    """If this failed, a caller who has another lamp would be served as if it were this one."""
    asked = ("fit", "WH-302", "renew-chimney", "--have", "GA-2450", "--lost", "GA-2410,SH-1640")
    assert said(*asked).out.startswith(NEVER_THERE)
    findings = json.loads(said(*asked, "--json").out)["request"]["findings"]
    assert [(one["rule"], one["severity"]) for one in findings] == [("not-on-it", "caution")] * 2


def test_two_parts_of_a_kind_in_hand_are_told() -> None:
    """If this failed, one of two parts the caller named would vanish without a word."""
    found = said("fit", "WH-302", "suit-place", "--have", "CH-3296,CH-3371")
    assert (
        "  - Mind: Chimney, plain foot, standard (CH-3296) and Chimney, plain foot, tall\n"
        "    (CH-3371) are both named as on the lamp; a lamp carries one chimney, and\n"
        "    Chimney, plain foot, tall (CH-3371), named last, is taken to be on it. Leave\n"
        "    out the one that is not on the lamp.\n"
    ) in found.out


def test_light_of_a_lamp_that_came_without_a_burner_is_against_its_model() -> None:
    """If this failed, a foot from a barn would be promised four times the light it never gave."""
    asked = ("fit", "SA-201", "complete", "--bare", "--have", "BA-2110,FO-2110")
    out = said(*asked).out
    assert "  - About 3 % more light than this model gave as it was sold.\n" in out
    assert "light is against the model as it was sold:\n" in out
    assert "  2  184.50      3      1   -5 %  CH-3296;" in out
    routes = json.loads(said(*asked, "--json").out)["routes"]
    assert [(one["light_points"], one["light_against"]) for one in routes] == [
        (3, "as sold"),
        (-5, "as sold"),
    ]


def test_the_tip_limit_and_the_units_are_taken_from_either_side_of_the_command() -> None:
    """If this failed, an option in the usual place would be refused or passed over."""
    ask = ("fit", "WH-302", "add-glass-shade", "--at", "1700m")
    before = said("--tip-limit", "iec60598-2-4", "--units", "us", *ask)
    after = said(*ask, "--tip-limit", "iec60598-2-4", "--units", "us")
    around = said(*ask, WICKWRIGHT_TIP_LIMIT="iec60598-2-4", WICKWRIGHT_UNITS="us")
    assert before == after == around
    assert "at 5,577 ft" in before.out
    assert "limit 6.0°" in before.out


NO_PLACE = """\
Dunlin table lamp (DU-401) at sea level: A new one for the smoke bell

It cannot be done.
This cannot be had:
  - the smoke bell is a new one
because
  - there is no place for a bell on this lamp: it goes on a hanging frame or
    bracket

The nearest that can be done:
  - leave the lamp as it is: nothing to buy
"""

NO_BURNER = """\
This cannot be had:
  - the lamp carries a shade
because
  - no burner that fits your font, Sheltie font, small (FO-6130), can carry a
    shade

The nearest that can be done:
  - leave the lamp as it is: nothing to buy
"""


def test_a_part_without_a_place_is_told_with_where_it_goes() -> None:
    """If this failed, 'it cannot be that the smoke bell is a new one' would be read out."""
    found = said("fit", "DU-401", "renew-bell")
    assert (found.code, found.out) == (1, NO_PLACE)
    why = json.loads(said("fit", "DU-401", "renew-bell", "--json").out)["why_not"]
    assert why["says"] == (
        "It cannot be that the smoke bell is a new one: there is no place for a bell on this "
        "lamp: it goes on a hanging frame or bracket."
    )


def test_a_joint_that_keeps_a_part_off_says_which() -> None:
    """If this failed, a caller who asks for a shade would hear of the font's thread."""
    assert said("fit", "TU-604", "add-shade").out.endswith(NO_BURNER)


def test_only_what_the_cheapest_way_needs_is_measured() -> None:
    """If this failed, a caller would be sent to measure parts of ways nobody takes."""
    short = said("fit", "TY-101", "renew-burner", "--have", "FO-1160").out
    assert short.count("Measure, and enter in the fit book:") == 1
    full = said("fit", "TY-101", "renew-burner", "--have", "FO-1160", "--all").out
    assert "For way 1: measure, and enter in the fit book:" in full
    assert "For way 2: measure, and enter in the fit book:" in full
