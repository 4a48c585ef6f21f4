"""Answers for programs: the same as on the command line, and refusals that name every place."""

from __future__ import annotations

import json
from typing import Any, cast

import pytest
from tests.support.command import said
from tests.support.programs import problem, program

OF_FILES = ("given", "given_anew")
"""Keys of the command line that speak of the file a call is kept in."""
SOMEWHERE = {"lamp": "WH-302", "wish": "renew-chimney"}


def command(line: str) -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads(said(*line.split(), "--json").out))


@pytest.mark.parametrize(
    ("path", "body", "line"),
    [
        (
            "/routes",
            {**SOMEWHERE, "elevation_m": 1700, "lost": ["chimney"], "budget": "120.5"},
            "fit WH-302 renew-chimney --at 1700m --lost chimney --budget 120.50",
        ),
        (
            "/routes",
            {"lamp": "sa-201", "wish": "complete", "bare": True, "have": ["BA-2110", "FO-2110"]},
            "fit SA-201 complete --bare --have BA-2110,FO-2110",
        ),
        (
            "/burn",
            {"lamp": "DU-401", "elevation_m": 1700, "with": ["CH-3371"], "setting": "mark"},
            "burn DU-401 --at 1700m --with CH-3371 --setting mark",
        ),
        (
            "/burn",
            {"lamp": "DU-401", "room": {"volume_m3": 40, "people": 2}},
            "burn DU-401 --room 40m3 --people 2",
        ),
        (
            "/why",
            {"lamp": "WH-302", "complaint": "dim", "elevation_m": 1900},
            "why WH-302 dim --at 1900m",
        ),
        ("/which", {"heard": [{"lamps": ["WH-301", "WH-302"]}]}, "which --lamps WH-301,WH-302"),
    ],
)
def test_a_program_is_answered_as_the_command_line_is(
    path: str, body: dict[str, object], line: str
) -> None:
    """If this failed, a shop would sell something else than an adviser sends."""
    answer = program().post(path, body)
    assert answer.status_code == 200, answer.text
    printed = command(line)
    for name in OF_FILES:
        printed.pop(name, None)
    assert answer.json() == printed


def test_two_parts_are_judged_as_on_the_command_line() -> None:
    """If this failed, the shop's 'does this fit' would differ from the desk's."""
    asking = program()
    warm = asking.get("/fits?below=GA-2410&above=ch-2296&below_k=393.15&above_k=453.15")
    assert warm.json() == command("pair GA-2410 CH-2296 --one-at 120C --other-at 180C")
    assert asking.get("/fits?below=CH-3296&above=CH-3296").json() is None
    assert [one["parameter"] for one in problem(asking.get("/fits?below=X&above=Y"))["errors"]] == [
        "below",
        "above",
    ]


def test_a_basket_is_told_its_faults_and_put_right_with_its_price() -> None:
    """If this failed, a shop would send a short chimney up a mountain."""
    body = {
        "order": "W-1007",
        "lamp": "WH-302",
        "elevation_m": 1700,
        "lines": [{"part": "CH-3296", "count": 1}, {"part": "CH-32960", "count": 1}],
    }
    answer = program().post("/baskets", body).json()
    faults = [(one["fault"], one["part"], one["row"]) for one in answer["faults"]]
    assert ("unknown-part", "CH-32960", 2) in faults
    assert ("wrong-for-place", "CH-3296", 1) in faults
    assert answer["order"] == "W-1007"
    assert any(line["part"] == "CH-3371" for line in answer["mended"]["lines"])
    paid = sum(float(line["price"]) * line["quantity"] for line in answer["mended"]["lines"])
    assert answer["mended"]["price"] == f"{paid:.2f}"
    assert "kerosene only" in answer["cautions"][0]


def test_a_basket_without_fault_is_left_alone() -> None:
    """If this failed, a shop would hold up orders that are right."""
    answer = program().post("/baskets", {"lamp": "DU-401", "lines": [{"part": "CH-3296"}]}).json()
    assert (answer["faults"], answer["mended"]) == ([], None)


def test_a_town_is_taken_for_a_place_and_told() -> None:
    """If this failed, a shop that knows only an address could not ask for the height there."""
    answer = program().post("/routes", {**SOMEWHERE, "place": "Leadville, Colorado"}).json()
    assert answer["town"]["elevation_m"] == answer["request"]["elevation_m"]
    assert answer["request"]["elevation_m"] > 3000
    assert "GeoNames" in answer["town"]["attribution"]


def test_a_town_of_many_is_never_chosen_silently() -> None:
    """If this failed, a lamp for one La Paz would be worked out for another, 3 km higher."""
    (wrong,) = problem(program().post("/routes", {**SOMEWHERE, "place": "La Paz"}))["errors"]
    assert wrong["pointer"] == "#/place"
    assert "may mean" in wrong["detail"]
    assert "Bolivia" in wrong["detail"]


def test_every_unknown_name_is_told_at_once_with_what_was_meant() -> None:
    """If this failed, whoever maps a shop's parts would find its slips one by one."""
    body = {"lamp": "WH-3O2", "wish": "renew-chimny", "have": ["CH-3296", "X"], "lost": ["chimny"]}
    asked = problem(program().post("/routes", body))
    assert asked == {
        "type": "urn:wickwright:unknown-name",
        "title": "A name is not in the fit book",
        "status": 422,
        "detail": f"4 things are wrong; the first: {asked['errors'][0]['detail']}",
        "instance": "/api/v1/routes",
        "errors": [
            {
                "in": "body",
                "pointer": "#/lamp",
                "parameter": None,
                "detail": "there is no lamp 'WH-3O2' in the fit book: did you mean 'WH-302'? "
                "GET /api/v1/lamps lists them",
            },
            {
                "in": "body",
                "pointer": "#/wish",
                "parameter": None,
                "detail": "there is no wish 'renew-chimny' in the fit book: did you mean "
                "'renew-chimney'? GET /api/v1/wishes lists them",
            },
            {
                "in": "body",
                "pointer": "#/have/1",
                "parameter": None,
                "detail": "there is no part 'X' in the fit book: GET /api/v1/parts lists them",
            },
            {
                "in": "body",
                "pointer": "#/lost/0",
                "parameter": None,
                "detail": "there is no part or kind of part 'chimny' in the fit book: did you mean "
                "'chimney'? GET /api/v1/parts lists them",
            },
        ],
    }


def test_every_fault_of_a_body_is_told_by_its_place() -> None:
    """If this failed, a program's author would have to guess which field is meant."""
    body = {
        "lamp": 7,
        "elevation_m": 1e9,
        "setting": 0.1,
        "lsot": ["chimney"],
        "room": {"people": -1},
        "have": ["CH-3296", ""],
    }
    asked = problem(program().post("/burn", body))
    assert asked["type"] == "urn:wickwright:not-usable"
    assert {one["pointer"]: one["detail"] for one in asked["errors"]} == {
        "#/lamp": "lamp: has to be a valid string",
        "#/elevation_m": "elevation_m: has to be less than or equal to 6000",
        "#/setting": "setting: has to be 'fullest' or 'mark', or has to be greater than or equal "
        "to 0.2",
        "#/lsot": "lsot: is not known here: did you mean 'lost'? /api/v1/openapi.json names what "
        "is",
        "#/room/volume_m3": "room.volume_m3: is missing, and has to be there",
        "#/room/people": "room.people: has to be greater than or equal to 0",
        "#/have/1": "have.1: has to be a text of at least 1 sign",
    }


def test_what_was_heard_or_done_is_told_by_its_place_too() -> None:
    """If this failed, a wrong answer in a list of forty would have to be searched for."""
    asking = program()
    heard = [{"look": "burner-burns", "value": "a round wik"}, {"bought": 10**40}]
    which = problem(asking.post("/which", {"heard": heard}))
    assert [one["pointer"] for one in which["errors"]] == ["#/heard/0", "#/heard/1"]
    assert "did you mean 'a round wick'?" in which["errors"][0]["detail"]
    events = ["no dangers", {"sign": "sooot", "said": "yes"}, {"remedy": 1, "outcome": None}]
    why = problem(asking.post("/why", {"lamp": "WH-302", "complaint": "dim", "events": events}))
    assert {one["pointer"] for one in why["errors"]} == {"#/events/1", "#/events/2"}


@pytest.mark.parametrize(
    ("raw", "kind"),
    [
        (b"{", "not-readable"),
        (b"\xff\xfe", "not-readable"),
        (b"[" * 60_000, "not-readable"),
        (b'{"lamp": ' + b"1" * 6000 + b"}", "not-readable"),
        (b'{"lamp": NaN, "wish": Infinity}', "not-usable"),
        (b'{"lamp": "DU-401", "elevation_m": NaN}', "not-usable"),
        (b'{"lamp": "DU-401", "elevation_m": 1e999}', "not-usable"),
        (b'{"lamp": "\\ud800"}', "not-usable"),
        (b'{"lamp": "DU-401\\u0000"}', "unknown-name"),
        (b'{"lamp": "DU-401", "\\ud800": 1}', "not-usable"),
        (b'{"lamp": "DU-401", "place": "\\u0000"}', "not-usable"),
        (b"null", "not-usable"),
        (b"", "not-usable"),
        (b"x" * 300_000, "too-large"),
    ],
)
def test_broken_bodies_are_refused_and_nothing_fails(raw: bytes, kind: str) -> None:
    """If this failed, a broken program could bring the desk down or leave a trace in its log."""
    asking = program()
    answer = asking.client.post(
        "/api/v1/burn", content=raw, headers={"content-type": "application/json"}
    )  # fmt: skip
    assert problem(answer)["type"] == f"urn:wickwright:{kind}", answer.text


def test_a_body_of_another_kind_is_refused() -> None:
    """If this failed, a form of another site could send what passes for JSON."""
    asking = program()
    answer = asking.client.post(
        "/api/v1/burn", content=b'{"lamp": "DU-401"}', headers={"content-type": "text/plain"}
    )
    assert problem(answer)["detail"] == (
        "Send application/json, and name it in the header Content-Type."
    )
    assert answer.headers["accept-post"] == "application/json"


def test_an_answer_under_an_older_revision_is_still_to_be_had() -> None:
    """If this failed, what a shop was told last week could not be shown again."""
    asking = program()
    revision = asking.desk.state.books.in_force().revision.id
    assert asking.post(f"/routes?revision={revision}", SOMEWHERE).status_code == 200
    unknown = asking.post("/routes?revision=0123456789abcdef", SOMEWHERE)
    assert problem(unknown)["type"] == "urn:wickwright:not-found"


def test_what_was_bought_is_taken_and_told_again() -> None:
    """If this failed, a shop could not say which way its caller took."""
    asking = program()
    done = {"remedy": "suit-place", "outcome": "still wrong", "bought": ["BU-3210", "CH-3371"]}
    body = {"lamp": "WH-302", "complaint": "dim", "elevation_m": 1900.0, "events": ["no dangers"]}
    told = asking.post("/why", {**body, "events": ["no dangers", done]}).json()
    assert told["events"][-1] == done
    done = {**done, "bought": ["BU-3210"]}
    refused = problem(asking.post("/why", {**body, "events": ["no dangers", done]}))
    assert refused["status"] == 422
    assert refused["errors"][0]["detail"].startswith("no way of 'suit-place' buys BU-3210: name")


def test_words_that_speak_of_a_danger_are_asked_about_first() -> None:
    """If this failed, a shop's page would answer a headache with the price of a wick."""
    asking = program()
    body = {"lamp": "WH-302", "complaint": "dim", "elevation_m": 0.0, "events": ["no dangers"]}
    told = asking.post("/why", {**body, "words": "it is dim and we have headaches"}).json()
    assert not told["gate"]["open"]
    assert [one["danger"] for one in told["gate"]["ask"]] == ["unwell"]
    assert told["gate"]["spoken_of"] == [
        {"danger": "unwell", "words": "we have headaches", "sure": True}
    ]
    assert told["gate"]["shut_by"][0]["tells"][0].startswith("Everybody out into fresh air now")
    assert told["best"] is None
    answered = [*told["events"], {"danger": "unwell", "said": "no"}]
    again = {**body, "words": "it is dim and we have headaches", "events": answered}
    assert asking.post("/why", again).json()["gate"]["open"]
