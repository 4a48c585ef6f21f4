"""Letters to callers: whole, plain, and never without what can hurt."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.round_of_wishes import round_of_wishes

from wickwright.answers import Impossible, NotKnown, Routes, which_parts
from wickwright.answers.diagnose import diagnose
from wickwright.answers.post.bench_letter import bench_letter, safety_letter
from wickwright.answers.post.reply import MOST_WORDS
from wickwright.answers.post.reply_without_parts import reply_to
from wickwright.answers.to_measure import to_measure
from wickwright.answers.words.cautions import CAUTIONS, usual_cautions
from wickwright.catalogue.records import Service
from wickwright.cause.dangers import GUARDS
from wickwright.fit.routes import Gave
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from wickwright.fit.routes import Answer

UNITS = Units("metric", "SKD")


def _of(answer: Answer, **more: str) -> str:
    return reply_to(demo(), answer, UNITS, **more)  # type: ignore[arg-type]


def _words_without_own_cautions(text: str) -> int:
    """Count the words of a letter, but for cautions that are about this very lamp."""
    always = {f"  - {one}" for cautions in CAUTIONS.values() for one in cautions}
    head, _, care = text.partition("Please mind:\n")
    own = [one for one in care.splitlines() if one.startswith("  - ") and one not in always]
    return len(head.split()) + len(care.split()) - sum(len(one.split()) for one in own)


def test_the_letter_of_the_first_call() -> None:
    """If this failed, the caller with the broken glass would read something else than she heard."""
    answer = which_parts(demo(), "WH-302", "renew-chimney", lost=["chimney"], elevation=1700.0)
    assert _of(
        answer, caller="Mrs  Halcrow", adviser="Inga", complaint="my glass\nkeeps breaking"
    ) == (
        "Dear Mrs Halcrow,\n"
        "\n"
        'Thank you for your call. You told us: "my glass keeps breaking". As we understand it you '
        "have a Tirrick shelf lamp (WH-302) at 1,700 m without chimney, and you would like a new "
        "chimney. If that is wrong, tell us first.\n"
        "\n"
        "We send:\n"
        "  - Converting gallery for basket 2, plain-foot seat (GA-2450): SKD 39.00\n"
        "  - Chimney, plain foot, tall (CH-3371): SKD 31.00\n"
        "Together SKD 70.00, postage not counted.\n"
        "\n"
        "Put aside, and do not use with the new parts: the old gallery.\n"
        "\n"
        "The lamp will give about 300 lm of light; it may be half or double of that.\n"
        "\n"
        "Please mind:\n"
        "  - At your height keep the wick below its usual mark; turn down at the first dark spot "
        "on the glowing web.\n"
        "  - Ceiling and wood: at least 0.60 m above the glass, 0.20 m beside it.\n"
        "  - Clear 1-K kerosene only. Never gasoline, never camp fuel: fire and explosion.\n"
        "  - Air in the room and a carbon monoxide alarm. Never leave a burning lamp unattended.\n"
        "  - Glass and metal are hot for long after: let the lamp go out and cool before touching "
        "it.\n"
        "  - Local codes, the maker's leaflet and licensed practice come first.\n"
        "\n"
        "The sheet in the parcel says how to fit them, and why each comes. Call us (01632 960 182) "
        "before you go on if a part does not go on by itself, or the lamp smokes, soots or smells. "
        "If anyone's head aches: lamp out, everybody into the fresh air.\n"
        "\n"
        "With kind regards\n"
        "Inga\n"
        "Skerry Lampworks\n"
    )


def test_every_letter_says_what_can_hurt_and_stays_short() -> None:
    """If this failed, some caller would be sent parts without the cautions, or a tract."""
    told = "it is not bright any more"
    for now, route in round_of_wishes():
        text = _of(Routes(now, (route,)), caller="Mrs Halcrow", adviser="Inga", complaint=told)
        assert [one for one in usual_cautions(now) if one not in text] == []
        assert [part.id for part in route.buy if f"({part.id})" not in text] == []
        assert _words_without_own_cautions(text) - len(told.split()) <= MOST_WORDS, text


def test_a_letter_with_many_parts_leaves_what_each_is_to_the_sheet() -> None:
    """If this failed, a caller of a barn find would be sent a tract, or parts without a word."""
    answer = which_parts(demo(), "TY-105", "add-parchment-shade", elevation=1700.0)
    assert isinstance(answer, Routes)
    assert len(answer.routes[0].buy) > 3
    text = _of(answer, caller="Mr Tait", adviser="Inga", complaint="a shade, please")
    assert text.startswith(
        'Dear Mr Tait,\n\nThank you for your call. You told us: "a shade, please". As we '
        "understand it you have a Haaf table lamp (TY-105) at 1,700 m, and you would like a shade "
        "of parchment. If that is wrong, tell us first.\n\nWe send:\n"
        "  - Hollin burner kit, coarse (BU-2110): SKD 138.00\n"
    )
    assert (
        "Fitted in it come: wick, spreader, gallery, mantle. Put aside, and do not use with the "
        "new parts: the old burner, wick, spreader, gallery, mantle, chimney, holder, shade.\n\n"
        "The lamp will give about 310 lm of light; it may be half or double of that.\n\n"
        "Please mind:\n"
        "  - At your height keep the wick below its usual mark; turn down at the first dark spot "
        "on the glowing web.\n"
        "  - Sold while stocks last: BU-2110 (then Kame burner kit (BU-3210)).\n"
    ) in text
    assert "The parchment shade stands in the heat: nowhere near the glass" in text
    assert "The sheet in the parcel says how to fit them, and why each comes." in text


def test_a_lamp_made_whole_is_listed_in_one_sentence() -> None:
    """If this failed, ten parts for a barn find would make a letter nobody reads."""
    have = ["BA-2110", "FO-2110"]
    answer = which_parts(demo(), "SA-201", "complete", have=have, bare=True, count=2)
    assert isinstance(answer, Routes)
    sent = answer.routes[0].buy
    text = _of(answer)
    if len(sent) > 4:
        assert f"We send for each lamp: {sent[0].kind} ({sent[0].id}), " in text
    assert " in all, postage not counted." in text
    assert _words_without_own_cautions(text) <= MOST_WORDS, text


def test_a_long_story_is_told_back_by_its_beginning() -> None:
    """If this failed, a caller who tells much would get all of it back in a letter."""
    story = " ".join(f"word{at}" for at in range(200))
    text = _of(which_parts(demo(), "DU-401", "renew-wick"), complaint=story)
    assert 'You told us: "word0 word1 ' in text
    assert 'word29 ...".' in text
    assert "word30" not in text


def test_a_bulb_is_not_written_about_as_a_flame() -> None:
    """If this failed, the letter would tell of kerosene to someone who must not have any."""
    text = _of(which_parts(demo(), "DU-401", "to-electric"))
    assert "On its bulb the lamp will give about 430 lm of light." in text
    assert "kerosene" not in text
    assert "plug out" in text
    assert all(one in text for one in CAUTIONS[Service.ELECTRIC])


def test_several_lamps_are_priced_together() -> None:
    """If this failed, a hall of three lamps would be quoted the price of one."""
    text = _of(which_parts(demo(), "DU-401", "renew-wick", count=3))
    assert "3 lamps of the model Dunlin table lamp (DU-401)" in text
    assert "We send for each lamp:" in text
    assert "for each lamp, SKD " in text
    assert " in all, postage not counted." in text


def test_what_cannot_be_done_is_said_with_what_can() -> None:
    """If this failed, a caller would be refused without a reason or a way on."""
    answer = which_parts(demo(), "WH-302", "add-glass-shade")
    assert isinstance(answer, Impossible)
    text = _of(answer)
    assert text.startswith("Hello,\n\nAs we understand it you have a Tirrick shelf lamp (WH-302)")
    assert (
        "We are sorry: this cannot be done. These cannot all hold: the lamp must not tip; the lamp "
        "carries a shade; the shade is of glass. The lamp tips at 6.8° when the font is empty; at "
        "least 8.0° is required. Choose a lighter or lower shade, or a lamp with a wider or "
        "heavier foot.\n\n"
        "The nearest that can be done:\n"
        "  - Leave the lamp as it is: nothing to buy.\n"
        "  - If you can do without 'the shade is of glass', we would send Open-arm holder 73 "
        "(HO-2073), Parchment shade 73 (SH-0731) for SKD 59.00.\n\n"
        "Until then, and always:\n"
    ) in text
    assert "We send" not in text


def test_what_is_not_known_is_asked_for() -> None:
    """If this failed, parts that nobody knows to fit would be promised, or the figure not named."""
    answer = which_parts(demo(), "TY-101", "renew-burner", have=["FO-1160"])
    assert isinstance(answer, NotKnown)
    text = _of(answer)
    wanted = to_measure(answer.routes[0].findings)
    assert wanted
    assert all(f"  - {one}\n" in text for one in wanted)
    assert "We send nothing yet." in text
    assert "We send:" not in text


def test_a_search_that_gave_up_promises_nothing() -> None:
    """If this failed, a letter would say that there is nothing where nobody knows."""
    answer = which_parts(demo(), "DU-401", "renew-wick")
    text = _of(Gave(answer.now, 1000))
    assert "We have not found out yet what to send." in text
    assert "We send" not in text


def test_what_is_likely_wrong_is_said() -> None:
    """If this failed, the letter would send parts without saying what for."""
    case = diagnose(demo(), "DU-401", "dim")
    answer = which_parts(demo(), "DU-401", "renew-wick")
    text = reply_to(demo(), answer, UNITS, diagnosis=case)
    likely = demo().book.calls.causes[case.advice.causes[0].cause].says
    assert f"What is most likely wrong: {likely}." in text


@pytest.mark.parametrize("call", ["1042", ""])
def test_a_lamp_goes_to_the_bench_empty_and_without_its_glass(call: str) -> None:
    """If this failed, a parcel could carry fuel, or splinters."""
    text = bench_letter(demo(), "BX-702", call=call, caller="Mr Tait", complaint="it buzzes")
    assert text.startswith(
        "Dear Mr Tait,\n\nThank you for your call about your Skua table lamp (BX-702). You told "
        'us: "it buzzes". We could not settle it from afar'
    )
    assert "No fuel goes in the post: fire." in text
    assert "Take off the tall glass, the shade, and the white web that glows." in text
    assert ("Write the number of the call, 1042, on a note inside." in text) is bool(call)


def test_a_short_order_keeps_its_reason() -> None:
    """If this failed, a caller would be sent a part without a word of what it is for."""
    text = _of(which_parts(demo(), "DU-401", "renew-wick"))
    assert "as you asked" in text.lower()
    assert "You would like a new wick." in text or "you would like a new wick." in text


def test_a_letter_of_no_adviser_is_signed_by_the_maker() -> None:
    """If this failed, a letter would be signed by 'adviser', whoever that is."""
    text = _of(which_parts(demo(), "DU-401", "renew-wick"))
    assert text.endswith("With kind regards\nSkerry Lampworks\n")


def test_a_dangerous_lamp_has_a_letter_of_its_own() -> None:
    """If this failed, whoever was told STOP would have nothing in writing."""
    shut = (GUARDS["wet-font"], GUARDS["cracked-font"])
    text = safety_letter(demo(), shut, call="7", caller="Mrs Halcrow", complaint="it drips")
    told = [one for guard in shut for one in (*guard.tells, *guard.never)]
    assert [one for one in told if text.count(f"  - {one}\n") != 1] == []
    cleared = "The lamp is out and cold, wiped dry, and has stayed dry on paper for 20 minutes."
    assert f"It may be used again only when this is so:\n  - {cleared}\n" in text
    assert "No letter or call can make it safe" in text
    assert "No fuel goes in the post: fire." in text
    assert "Write the number of the call, 7, on a note inside." in text
    assert "Call us (01632 960 182) when that is done." in text


def test_what_can_be_cleared_is_not_sent_in() -> None:
    """If this failed, a lamp that only has to be wiped dry would be asked for by post."""
    text = safety_letter(demo(), (GUARDS["wet-font"],))
    assert "This is how to pack it:" not in text
