from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from typing import Final

import pytest
from tests.support.demo import demo

from wickwright.answers.pictures.look_pictures import DRAWN, look_picture, look_pictures
from wickwright.catalogue.call_records import Look, Mark, Way
from wickwright.terms.units import Units

SVG: Final = "{http://www.w3.org/2000/svg}"
CALLS: Final = demo().book.calls
ANSWERS: Final = {
    look: tuple(dict.fromkeys(mark.value for mark in CALLS.marks if mark.look == look))
    for look, it in CALLS.looks.items()
    if it.way is not Way.MEASURE
}
SEEN: Final = sorted(ANSWERS)
NOT_DRAWN: Final = {
    "base-metal": "a metal and its finish are no line",
    "base-magnet": "nothing is seen, a magnet is felt",
    "base-below": "how the letters are cast is not in the book",
    "base-toes": "how a claw, a hoof or a paw is cast is not in the book",
    "base-arm": "how a rope or a hitch is cast is not in the book",
    "base-rods": "brass and steel, black and bright are no line",
    "font-made-of": "a material and its colour are no line",
    "font-stamp": "how a stamp looks is not in the book",
    "burner-stamp": "how a stamp looks is not in the book",
    "burner-metal": "yellow and white are no line",
    "gallery-metal": "yellow and white are no line",
    "gallery-stamp": "how a stamp looks is not in the book",
    "chimney-etching": "how an etching looks is not in the book",
    "holder-metal": "yellow, white and dark are no line",
    "shade-made-of": "a material and its colour are no line",
    "shade-picture": "how a picture is painted is not in the book",
    "shade-limit": "small print is read out, not compared",
    "bell-made-of": "a material is no line",
}
"""Looks of which nothing true can be drawn, and why."""
SKETCHED: Final = {"base-plate", "burner-knob", "holder-joints"}
UNSIZED: Final = {"base-stance", "font-cap", "burner-burns", "mantle-post", "bell-edge"}
"""Looks whose answers are not told apart by how tall the part is: no size is printed."""
BIGGEST: Final = 4000
"""Of one picture [bytes]."""
NEAR: Final = 0.02
"""Two roundings to a hundredth of a pixel [px]."""


@cache
def _pictures(look: str) -> dict[str, ET.Element]:
    found = look_pictures(demo(), look)
    return {answer: ET.fromstring(svg) for answer, svg in found.items()}  # noqa: S314 - our own


def _measure(picture: ET.Element) -> tuple[float, float] | None:
    """Length of the drawn measure [px], and the length it stands for [mm]."""
    line = next((it for it in picture.iter(f"{SVG}path") if it.get("data-mm")), None)
    if line is None:
        return None
    numbers = [float(it) for it in re.findall(r"-?[\d.]+", line.get("d", ""))[:4]]
    drawn = math.dist(numbers[:2], numbers[2:])
    return drawn, float(line.get("data-mm", ""))


def _scale(picture: ET.Element) -> float:
    return next(float(it.get("data-scale", "")) for it in picture if it.get("data-scale"))


def _words(picture: ET.Element) -> list[str]:
    return [it.text or "" for it in picture.iter(f"{SVG}text")]


def test_every_look_has_a_picture_for_each_answer_or_a_reason_why_not() -> None:
    """Some answers of a look would stand without a picture beside others that have one."""
    drawn = {look for look in SEEN if _pictures(look)}
    assert drawn.isdisjoint(NOT_DRAWN)
    assert drawn | set(NOT_DRAWN) == set(SEEN)
    for look in drawn:
        assert tuple(_pictures(look)) == ANSWERS[look]


def test_looks_that_are_drawn_are_looks_of_the_book() -> None:
    """A look renamed in the tables would silently lose its pictures."""
    assert set(DRAWN) == set(SEEN) - set(NOT_DRAWN)


def test_what_is_measured_has_no_picture() -> None:
    """A height would be asked for by a picture of one part of many."""
    measured = [look for look, it in CALLS.looks.items() if it.way is Way.MEASURE]
    assert [look_pictures(demo(), look) for look in measured] == [{}] * len(measured)


@pytest.mark.parametrize("look", sorted(DRAWN))
def test_a_picture_can_stand_in_a_page(look: str) -> None:
    """A page with a strict policy would refuse it, or two pictures share a name."""
    for answer, svg in look_pictures(demo(), look).items():
        root = ET.fromstring(svg)  # noqa: S314 - our own drawing
        assert root.get("viewBox") == "0 0 160 160"
        assert root.findtext(f"{SVG}title") == answer
        assert (root.findtext(f"{SVG}desc") or "").startswith(f"{answer}. ")
        assert len(svg.encode()) < BIGGEST
        assert not re.search(r"<style| style=| id=|url\(|<script|href", svg)


@pytest.mark.parametrize("look", sorted(DRAWN))
def test_nothing_of_a_picture_falls_off_the_paper(look: str) -> None:
    """What tells two parts apart could be cut off at the edge."""
    for answer, picture in _pictures(look).items():
        for one in picture.iter(f"{SVG}path"):
            at = [0.0, 0.0]
            for letter, numbers in re.findall(r"([MLlc])([-\d. ]+)", one.get("d", "")):
                *_, x, y = (float(it) for it in re.findall(r"-?[\d.]+", numbers))
                at = [at[0] + x, at[1] + y] if letter in "lc" else [x, y]
                assert all(0.0 <= it <= 160.0 for it in at), (answer, at)


@pytest.mark.parametrize("look", sorted(DRAWN))
def test_pictures_of_one_look_are_at_one_scale(look: str) -> None:
    """A caller who compares two diameters would choose by the paper, not by the part."""
    scales = {answer: _scale(it) for answer, it in _pictures(look).items()}
    assert len(set(scales.values())) == 1
    for answer, picture in _pictures(look).items():
        found = _measure(picture)
        if found:
            drawn, mm = found
            assert drawn == pytest.approx(mm / 1000 * scales[answer], abs=NEAR)


@pytest.mark.parametrize("look", sorted(set(DRAWN) - SKETCHED))
def test_a_measure_is_that_of_a_part_that_carries_the_mark(look: str) -> None:
    """The drawn size would be of no part that the answer speaks of."""
    shown = 0
    for answer, picture in _pictures(look).items():
        found = _measure(picture)
        told = picture.findtext(f"{SVG}desc") or ""
        named = re.search(r"from part (\S+)\.(?: |$)", told)
        parts = {it.part for it in CALLS.marks if (it.look, it.value) == (look, answer)}
        assert named
        assert named[1] in parts
        assert found is None or look not in UNSIZED
        if found is None:
            continue
        part = demo().book.parts[named[1]]
        sizes = [size.nominal for port in part.ports for size in port.sizes.values()]
        lengths = [1000.0 * it for it in (*sizes, part.height) if it]
        assert any(abs(found[1] - one) < NEAR for one in lengths)
        shown += 1
    assert shown or look in UNSIZED


@pytest.mark.parametrize("look", sorted(DRAWN))
def test_what_is_no_measure_of_the_book_says_it_is_a_sketch(look: str) -> None:
    """A caller would hold a knob against a picture that was never measured."""
    for picture in _pictures(look).values():
        sketch = look in SKETCHED
        assert ("sketch, not to scale" in _words(picture)) is sketch
        told = picture.findtext(f"{SVG}desc") or ""
        assert ("A sketch, not to scale: the fit book has no dimension of it." in told) is sketch


@pytest.mark.parametrize("look", sorted(DRAWN))
def test_no_two_answers_of_a_look_look_the_same(look: str) -> None:
    """A caller could not choose between them."""
    bodies = [
        [one.get("d") for one in picture.iter(f"{SVG}path") if not one.get("data-mm")]
        for picture in _pictures(look).values()
    ]
    assert all(bodies.count(one) == 1 for one in bodies)


COUNTED: Final = (
    ("gallery-seat", "dropped in and turned under 3 lugs", 3 + 2),
    ("gallery-seat", "dropped in and turned under 4 lugs", 4 + 1),
    ("chimney-foot", "3 grooves in the foot", 3 + 1),
    ("chimney-foot", "4 grooves in the foot", 4 + 1),
    ("chimney-foot", "a smooth foot", 0),
    ("base-plate", "oval, two screw holes", 2),
    ("base-plate", "round, three screw holes", 3),
    ("burner-knob", "large, four holes", 4),
    ("holder-carries", "a full ring", 1 + 1),
    ("font-cap", "a cap", 1),
    ("font-cap", "no cap", 0),
    ("gallery-rim", "a rim", 1),
    ("gallery-rim", "no rim", 0),
)
"""How many bodies are yellow: those along the axis and those that can be seen from the front."""


@pytest.mark.parametrize(("look", "answer", "count"), COUNTED)
def test_as_many_are_drawn_as_the_answer_says(look: str, answer: str, count: int) -> None:
    """Three lugs would be drawn for four, and the wrong glass be sent."""
    paths = list(_pictures(look)[answer].iter(f"{SVG}path"))
    assert sum(it.get("fill") == "#f4c430" for it in paths) == count


def test_the_pitch_of_a_thread_is_drawn_as_the_book_has_it() -> None:
    """A caller with a rule would count other ridges than the picture shows."""
    found = {answer: _measure(it) for answer, it in _pictures("collar-ridges").items()}
    pitches = {answer: round(it[1], 2) for answer, it in found.items() if it}
    assert pitches == {
        "10 to the inch": 2.54,
        "18 to the inch": 1.41,
        "17 to the inch": 1.5,
        "16 to the inch": 1.59,
    }


def test_sizes_of_several_parts_are_printed_as_a_range() -> None:
    """A caller whose glass is at the other end of the range would rule it out."""
    said = {answer: _words(it) for answer, it in _pictures("chimney-foot").items()}
    assert said == {
        "3 grooves in the foot": ["62.7 mm across"],
        "4 grooves in the foot": ["59.4 mm across"],
        "a smooth foot": ["54.1 to 70.4 mm across"],
    }


def test_sizes_can_be_printed_in_inches() -> None:
    """A caller with an inch rule would have to work them out."""
    svg = look_picture(demo(), "chimney-foot", "3 grooves in the foot", Units("us"))
    assert svg is not None
    assert _words(ET.fromstring(svg)) == ["2.469 in across"]  # noqa: S314 - our own drawing


def test_a_tall_base_is_drawn_shortened_and_says_so() -> None:
    """A frame of 80 cm would make every foot beside it too small to see."""
    frame = _pictures("base-stance")["a frame hung from above"]
    assert (frame.findtext(f"{SVG}desc") or "").endswith(
        "By the fit book 700 to 860 mm tall. It is drawn shortened."
    )
    foot = _pictures("base-stance")["one round foot"]
    assert "shortened" not in (foot.findtext(f"{SVG}desc") or "")


def test_the_words_of_a_picture_are_those_of_the_book() -> None:
    """A reader who cannot see it would not hear what it shows."""
    picture = _pictures("gallery-seat")["pushed down between spring fingers"]
    assert picture.findtext(f"{SVG}desc") == (
        "pushed down between spring fingers. Above from the front, below from above. To one "
        "scale with the other pictures of this question, from part GA-1450. By the fit book "
        "61.9 to 70.5 mm across. How many fingers there are is not in the fit book."
    )


@pytest.mark.parametrize(
    ("look", "kind", "value"),
    [
        ("burner-knob", "burner", "like a fish"),
        ("base-plate", "base", "like a fish"),
        ("holder-joints", "holder", "glued"),
        ("burner-basket", "burner", "stars"),
    ],
)
def test_words_that_describe_no_form_have_no_picture(look: str, kind: str, value: str) -> None:
    """A knob nobody has described would be drawn as some knob."""
    book = demo().book
    part = next(it.id for it in book.parts.values() if it.kind == kind)
    calls = replace(book.calls, marks=(Mark(part, look, value),))
    assert look_pictures(replace(demo(), book=replace(book, calls=calls)), look) == {}


def test_a_part_nobody_measured_is_drawn_without_a_measure() -> None:
    """A book with blanks would stop the call, or a guessed size be printed as one of the book."""
    book = demo().book
    marks = (Mark("CH-3301", "chimney-foot", "a smooth foot"),)
    bare = replace(demo(), book=replace(book, calls=replace(book.calls, marks=marks)))
    assert look_pictures(bare, "chimney-foot") == {}
    height = replace(book.parts["FO-2110"], height=None, ports=(), fuel=None)
    marks = (Mark("FO-2110", "font-shape", "round and plain"),)
    parts = {**book.parts, "FO-2110": height}
    calls = replace(book.calls, marks=marks)
    blank = replace(demo(), book=replace(book, parts=parts, calls=calls))
    drawn = ET.fromstring(look_pictures(blank, "font-shape")["round and plain"])  # noqa: S314 - ours
    assert _words(drawn) == []
    assert _measure(drawn) is None


def test_words_of_the_book_are_escaped() -> None:
    """A mark with a sharp bracket would break the page, or a script run in it."""
    book = demo().book
    nasty = "a <script>milled</script> edge"
    calls = replace(book.calls, marks=(Mark("BU-2200", "burner-knob", nasty),))
    svg = look_pictures(replace(demo(), book=replace(book, calls=calls)), "burner-knob")[nasty]
    assert "<script" not in svg
    assert ET.fromstring(svg).findtext(f"{SVG}title") == nasty  # noqa: S314 - our own drawing


def test_a_look_that_is_not_in_the_book_has_no_picture() -> None:
    """An old call with a look since taken out of the tables could not be opened."""
    assert look_picture(demo(), "font-smell", "sweet") is None
    without = replace(demo().book.calls, looks={}, marks=())
    bare = replace(demo(), book=replace(demo().book, calls=without))
    assert look_picture(bare, "font-cap", "a cap") is None
    assert isinstance(CALLS.looks["font-cap"], Look)
