"""People: added, changed, shut out, and never left without a lead."""

from dataclasses import replace

from tests.support.desks import PASSWORD, new_desk

from wickwright.answers.sheet.desk_store import Role


def test_somebody_who_is_shut_out_is_out_at_once() -> None:
    """If this failed, a person who has left could go on reading callers' addresses."""
    desk = new_desk()
    adviser, lead = desk.logged_in("Tomas"), desk.logged_in("Ingrid")
    lead.post("/people/change", {"name": "Tomas", "role": "adviser", "desk": "front"})
    assert adviser.get("/").status_code == 303
    sent = {"name": "Tomas", "password": PASSWORD}
    assert desk.browser().post("/login", sent, key=False).status_code == 403


def test_another_role_holds_at_once() -> None:
    """If this failed, a lead who became a planner would still put books in force."""
    desk = new_desk()
    lead = desk.logged_in("Ingrid")
    lead.post(
        "/people/change", {"name": "Tomas", "role": "lead", "desk": "back", "active": "yes"}
    )  # fmt: skip
    person = desk.state.store.people.person("tomas")
    assert person is not None
    assert (person.role, person.desk, person.active) == (Role.LEAD, "back", True)
    assert desk.logged_in("Tomas").get("/ledger").status_code == 200


def test_the_last_lead_stays() -> None:
    """If this failed, nobody could look after people any more."""
    lead = new_desk().logged_in("Ingrid")
    for sent in ({"role": "adviser", "active": "yes"}, {"role": "lead"}):
        answer = lead.post("/people/change", {"name": "Ingrid", "desk": "front", **sent})
        assert answer.status_code == 400
        assert "Nobody would be there who looks after people." in answer.text


def test_the_first_who_is_added_is_a_lead() -> None:
    """If this failed, a desk of one that adds an adviser could not be opened by a lead again."""
    desk = new_desk(single="Mari")
    for person in desk.state.store.people.people():
        desk.state.store.people.put(replace(person, active=False), "Mari", desk.clock())
    mari = desk.browser()
    answer = mari.post("/people", {"name": "Wren", "role": "adviser", "desk": "front"})
    assert answer.status_code == 400
    assert "Make somebody a lead first." in answer.text
    sent = {"name": "Wren", "role": "lead", "desk": "front"}
    assert mari.post("/people", sent).status_code == 200


def test_a_name_stands_for_one_person() -> None:
    """If this failed, two people would share a name in every trail."""
    lead = new_desk().logged_in("Ingrid")
    answer = lead.post("/people", {"name": " tomas ", "role": "adviser", "desk": "front"})
    assert answer.status_code == 400
    assert "There is a tomas already." in answer.text


def test_what_is_done_with_people_stands_in_the_ledger() -> None:
    """If this failed, nobody would know who let a stranger in."""
    desk = new_desk()
    lead = desk.logged_in("Ingrid")
    lead.post("/people", {"name": "Wren", "role": "adviser", "desk": "back"})
    page = lead.get("/ledger").text
    assert "person added" in page
    assert "Wren" in page


def test_names_of_people_and_desks_are_one_line() -> None:
    """If this failed, a name could stand as two in the ledger and in every list."""
    desk = new_desk()
    lead = desk.logged_in("Ingrid")
    lead.post("/people", {"name": "Wren\r\nHay", "role": "adviser", "desk": "back\nroom\x00"})
    wren = desk.state.store.people.person("Wren Hay")
    assert wren is not None
    assert (wren.name, wren.desk) == ("Wren Hay", "back room")
    sent = {"name": "Tomas", "role": "adviser", "desk": "up\x0bstairs", "active": "yes"}
    lead.post("/people/change", sent)
    tomas = desk.state.store.people.person("Tomas")
    assert tomas is not None
    assert tomas.desk == "up stairs"
    sent = {"name": "Tomas", "role": "adviser", "desk": "\r\n", "active": "yes"}
    answer = lead.post("/people/change", sent)
    assert answer.status_code == 400
    assert "A desk has a name of 1 to 60 letters." in answer.text
