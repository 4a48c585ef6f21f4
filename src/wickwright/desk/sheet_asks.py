"""What the sheet asks next, and what was answered, as records a page is filled with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby
from typing import TYPE_CHECKING, Final

from wickwright.answers.said.numbers_said import parts_said
from wickwright.answers.said.what_is_meant import CallFor
from wickwright.answers.sheet.call_sheet import (
    AskAct,
    AskBench,
    AskClear,
    AskDangers,
    AskGiveUp,
    AskLook,
    AskMissing,
    AskPlace,
    AskSign,
    AskWanted,
)
from wickwright.answers.sheet.given_up import claim_text, given_up_words, read_claims
from wickwright.answers.sheet.steps import UNSURE
from wickwright.answers.sheet.why_out import wrong_already
from wickwright.catalogue.call_records import DANGERS
from wickwright.catalogue.records import KINDS
from wickwright.cause.case import Outcome
from wickwright.cause.case import Said as Reply
from wickwright.cause.dangers import GUARDS
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.said.what_is_meant import Wanted
    from wickwright.answers.sheet.call_sheet import Sheet
    from wickwright.answers.sheet.memory import Memory
    from wickwright.catalogue.call_records import Sign
    from wickwright.cause.next_step import Step
    from wickwright.recognise.looks import Sight

__all__ = [
    "AskCard",
    "Choice",
    "Told",
    "ask_card",
    "change_card",
    "numbered",
    "place_card",
    "told",
    "unit_card",
]

BENCH: Final = "The bench takes it: send the lamp empty, dry and packed without its glass."
_COLD: Final = "Lamp out and cold to the hand; nothing is forced."
_SHOWN: Final = 3
_KEYS: Final = "1234567890efghijkm"
"""Keys of answers: digits, then letters that do nothing else on a sheet."""


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer that can be chosen.

    Attributes
    ----------
    value : str
        What is sent.
    says : str
        What is shown.
    key : str
        The key that chooses it; blank where there is none.
    picture : str
        SVG; blank where there is none.
    """

    value: str
    says: str
    key: str = ""
    picture: str = ""


@dataclass(frozen=True, slots=True)
class AskCard:
    """A question, or something to do.

    Attributes
    ----------
    sort : str
        ``wanted``, ``place``, ``missing``, ``dangers``, ``clear``, ``look``, ``sign``, ``act``,
        ``unit``, ``town``, ``give-up`` or ``bench``.
    title : str
        The question.
    notes : tuple of str
        What is read out with it.
    why : tuple of str
        Why it is asked.
    hidden : tuple of (str, str)
        Fields that go with the answer.
    name : str
        Field of the answer.
    choices : tuple of Choice
        Answers.
    many : bool
        Whether several can be chosen at once.
    measured : bool
        Whether a length is typed.
    """

    sort: str
    title: str
    notes: tuple[str, ...] = ()
    why: tuple[str, ...] = ()
    hidden: tuple[tuple[str, str], ...] = ()
    name: str = ""
    choices: tuple[Choice, ...] = ()
    many: bool = False
    measured: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """Something that was answered.

    Attributes
    ----------
    asks : str
        The question in short.
    said : str
        The answer.
    drop : str
        What is sent to take it back.
    clashes : bool
        Whether it does not go with another answer.
    can_change : bool
        Whether its question can be asked once more.
    """

    asks: str
    said: str
    drop: str
    clashes: bool
    can_change: bool = False


# -- what is asked -------------------------------------------------------------------------------


def ask_card(memory: Memory, sheet: Sheet) -> AskCard | None:  # noqa: PLR0911 - a case for each sort
    """Return the question of a sheet.

    Parameters
    ----------
    memory : Memory
        The fit book.
    sheet : Sheet
        As it stands.

    Returns
    -------
    AskCard or None
        None where nothing is asked.
    """
    match sheet.asked:
        case AskWanted(offers):
            return _wanted(memory, sheet, offers)
        case AskPlace():
            return place_card()
        case AskMissing(kinds):
            return _missing_card(kinds)
        case AskDangers() | AskClear():
            return _danger_card(sheet.asked)
        case AskLook():
            return _look_card(memory, sheet, sheet.asked)
        case AskSign(step):
            return _sign_card(memory, step)
        case AskAct(step):
            return _act_card(memory, sheet, step)
        case AskGiveUp() | AskBench():
            return _last_card(memory, sheet.asked)
        case None:
            return None


def place_card(note: str = "") -> AskCard:
    """Ask where the lamp stands; with a note where what was said is not understood."""
    why = "High up the air is thin: the glass that draws well at the sea starves there."
    notes = (note,) if note else ()
    return AskCard("place", "Where does the lamp stand?", notes, (why,), name="place")


def unit_card(heights: Sequence[str]) -> AskCard:
    """Ask in which unit a height was said."""
    why = "A number alone may be either, and the air is not the same."
    choices = numbered([(one, one) for one in heights])
    return AskCard("unit", "Metres or feet?", (), (why,), name="place", choices=choices)


def _danger_card(asked: AskDangers | AskClear) -> AskCard:
    if isinstance(asked, AskClear):
        guard = asked.guard
        return AskCard(
            "clear",
            f"Is this so: {guard.clears}?",
            why=("Only this makes it safe to light the lamp again.",),
            hidden=(("cleared", guard.danger),),
            name="said",
            choices=numbered([("yes", "yes"), ("no", "not yet")]),
        )
    return AskCard(
        "dangers",
        "First, before anything else. Is any of these so?",
        tuple(f"The words speak of it: '{words}'." for words in _spoken(asked)),
        why=("A lamp that does one of these hurts people. It is put out before we go on.",),
        hidden=tuple(("asked", guard.danger) for guard in asked.guards),
        name="danger",
        choices=tuple(_danger_choices(asked)),
        many=True,
    )


def _danger_choices(asked: AskDangers) -> Iterator[Choice]:
    """Yield the dangers, each under a number of its own that stays whatever else is asked."""
    spoken = {one.danger for one in asked.spoken}
    for guard in sorted(asked.guards, key=lambda guard: _DANGER_KEYS[guard.danger]):
        said = " (the words speak of it)" if guard.danger in spoken else ""
        yield Choice(guard.danger, f"{guard.asks}{said}", _DANGER_KEYS[guard.danger])


_DANGER_KEYS: Final = {
    guard.danger: key
    for guard, key in zip(
        sorted(GUARDS.values(), key=lambda guard: not guard.flame), _KEYS, strict=False
    )
}
"""Keys of the dangers: those of a flame first, the gravest first."""


def _spoken(asked: AskDangers) -> Iterable[str]:
    return dict.fromkeys(one.words for one in asked.spoken)


def _last_card(memory: Memory, asked: AskGiveUp | AskBench) -> AskCard:
    """Offer what can be given up, each with what it costs then and what is sent; or the bench."""
    if isinstance(asked, AskBench):
        says = "Nothing more that can be done by telephone is worth its time."
        offers = [_offer(one.sort, one.key, one.title) for one in asked.offers]
        return AskCard("bench", says, (BENCH,), name="choose", choices=numbered(offers))
    choices = []
    for out in asked.outs:
        price = "" if out.price is None else say(Quantity(out.price, Kind.MONEY), memory.units)
        sent = ", ".join(called(part) for part in out.buy) or "nothing to buy"
        texts = " ".join(claim_text(claim) for claim in out.give_up)
        without = " and ".join(f"'{one}'" for one in given_up_words(asked.answer.now, out.give_up))
        choices.append((texts, f"without {without}: {sent}, {price}"))
    wrong = wrong_already(memory.compiled, asked.answer.now, memory.units)
    already = [f"As it is: {says} So any way puts this right too." for says in wrong]
    return AskCard(
        "give-up",
        "It cannot all be had. What would the caller rather do without?",
        (*already, "Nothing that keeps the lamp safe is ever given up."),
        ("Without one of these the rest can be sent.",),
        name="without",
        choices=numbered(choices),
    )


def _missing_card(kinds: tuple[str, ...]) -> AskCard:
    return AskCard(
        "missing",
        "What is missing from it, or broken?",
        (_COLD,),
        ("What is not there decides what it needs.",),
        (("looked", "yes"),),
        "missing",
        numbered([(kind, f"{kind}: {KINDS[kind]}") for kind in kinds]),
        many=True,
    )


def numbered(choices: list[tuple[str, str]]) -> tuple[Choice, ...]:
    """Give each choice its key: 1 to 9, 0, then letters."""
    keys = [*_KEYS, *[""] * len(choices)]
    return tuple(
        Choice(value, says, key) for key, (value, says) in zip(keys, choices, strict=False)
    )


def _offer(sort: CallFor, key: str, title: str) -> tuple[str, str]:
    says = title if sort is CallFor.WISH else f"Something is wrong: {title}"
    return f"{sort}:{key}", says


def _wanted(memory: Memory, sheet: Sheet, offers: tuple[Wanted, ...]) -> AskCard:
    """Offer what the words may mean; where that is nothing, say so and offer all there is."""
    notes: tuple[str, ...]
    if offers:
        notes = ("None of these? Choose under Wanted or Wrong, or ask the caller again.",)
        choices = [_offer(one.sort, one.key, one.title) for one in offers]
        choices += _on_it(memory, sheet)
        return AskCard(
            "wanted", "Is this what is meant?", notes, name="choose", choices=numbered(choices)
        )
    book = memory.compiled.book
    every = [
        *(_offer(CallFor.WISH, one.id, one.title) for one in book.wishes.values()),
        *(_offer(CallFor.COMPLAINT, one.id, one.says) for one in book.calls.complaints.values()),
    ]
    notes = (NOT_UNDERSTOOD,) if sheet.said.words else ()
    return AskCard("wanted", "What is wanted?", notes, name="choose", choices=numbered(every))


def _on_it(memory: Memory, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Offer that a part that was named is what is on the lamp."""
    for part in parts_said(memory.compiled.book, sheet.said.words):
        if part.id not in sheet.said.have:
            yield f"have:{part.id}", f"{called(part)} is what is on the lamp now"


NOT_UNDERSTOOD: Final = (
    "This was not understood: the fit book knows none of these words. Ask the caller to say it "
    "otherwise, or choose from all there is:"
)


def _look_card(memory: Memory, sheet: Sheet, asked: AskLook) -> AskCard:
    which, look = sheet.which, asked.look
    if which is None:  # pragma: no cover - a look is asked where there is a search
        raise AssertionError(look)
    why = "It tells lamps apart that take different parts."
    if len(look.apart) == 2:  # noqa: PLR2004 - a pair
        one, other = (memory.compiled.book.lamps[name].name for name in look.apart)
        why = f"It tells the {one} from the {other}."
    return _card_of_look(memory, which.asking.sight(look.look), why)


def _card_of_look(memory: Memory, sight: Sight, *why: str) -> AskCard:
    how = (f"How to look: {sight.look.note}.",) if sight.look.note else ()
    return AskCard(
        "look",
        sight.look.question,
        (_COLD,),
        (*why, *how),
        (("look", sight.look.id),),
        "value",
        () if sight.is_measured else _pictured(memory, sight),
        measured=sight.is_measured,
    )


def _pictured(memory: Memory, sight: Sight) -> tuple[Choice, ...]:
    pictures = memory.pictures(sight.look.id)
    return tuple(
        replace(one, picture=pictures.get(one.value, ""))
        for one in numbered([(answer, answer) for answer in sight.answers])
    )


def _about(memory: Memory, step: Step) -> list[str]:
    causes = memory.compiled.book.calls.causes
    says = [causes[one].says for one in step.about[:_SHOWN]]
    return [f"It speaks to this: {'; '.join(says)}."] if says else []


def _sign_card(memory: Memory, step: Step) -> AskCard:
    sign = memory.compiled.book.calls.signs[step.key]
    card = _card_of_sign(sign)
    return replace(card, why=(*card.why, *_about(memory, step)))


def _card_of_sign(sign: Sign) -> AskCard:
    return AskCard(
        "sign",
        sign.question,
        (_COLD,) if sign.state.value == "cold" else (),
        (f"{sign.why}.",),
        (("sign", sign.id),),
        "said",
        numbered([(Reply.YES.value, "yes"), (Reply.NO.value, "no")]),
    )


def _act_card(memory: Memory, sheet: Sheet, step: Step) -> AskCard:
    remedy = memory.compiled.book.calls.remedies[step.key]
    notes = [f"Mind: {remedy.caution}."] if remedy.caution else []
    if step.state.value == "cold":
        notes.insert(0, "Lamp out and cold to the hand.")
    if any(parcel.remedy == step.key and parcel.routes for parcel in sheet.parcels):
        notes.append(_IN_THE_BOX)
    return AskCard(
        "act",
        f"To do: {remedy.says}.",
        tuple(notes),
        tuple(_about(memory, step)),
        (("remedy", step.key), *_put_on(sheet, step)),
        "outcome",
        numbered([(one.value, one.value) for one in Outcome]),
    )


def _put_on(sheet: Sheet, step: Step) -> Iterator[tuple[str, str]]:
    """Name what the chosen way buys, so that the lamp is known as it is if it does not help."""
    for parcel in sheet.parcels:
        if parcel.remedy == step.key and parcel.route is not None and parcel.route.buy:
            yield "put_on", " ".join(part.id for part in parcel.route.buy)


_IN_THE_BOX: Final = (
    "What goes in the box stands beside this: send it (o). The call stays open; take it up again "
    "when the caller has tried it."
)


def change_card(memory: Memory, sheet: Sheet, row: str) -> AskCard | None:
    """Return the question of an answer that is to be changed.

    Parameters
    ----------
    memory : Memory
        The fit book.
    sheet : Sheet
        As it stands.
    row : str
        Which answer, as :attr:`Told.drop` names it.

    Returns
    -------
    AskCard or None
        None where it is no answer to a look or a sign.
    """
    field, _, place = row.partition(":")
    given = {"heard": sheet.said.heard, "events": sheet.said.events}.get(field, ())
    if not place.isascii() or not place.isdigit() or not int(place[:6]) < len(given):
        return None
    match given[int(place[:6])]:
        case {"look": str(look)} if memory.asking is not None and memory.asking.has(look):
            return _card_of_look(memory, memory.asking.sight(look))
        case {"sign": str(key)} if key in memory.compiled.book.calls.signs:
            card = _card_of_sign(memory.compiled.book.calls.signs[key])
            return replace(card, hidden=(*card.hidden, ("instead", row)))
        case _:
            return None


# -- what was answered ---------------------------------------------------------------------------


def told(memory: Memory, sheet: Sheet) -> tuple[Told, ...]:
    """Return what was answered, in the order it stands on the sheet.

    Parameters
    ----------
    memory : Memory
        The fit book.
    sheet : Sheet
        As it stands.

    Returns
    -------
    tuple of Told
        Of the lamp, of the complaint, then what is done without; what the fit book no longer
        knows is shown as it is.
    """
    clashing = _clashing(sheet)
    return (
        *_rows(memory, "heard", sheet.said.heard, clashing),
        *_rows(memory, "events", sheet.said.events, clashing),
        *_without_rows(sheet),
    )


def _without_rows(sheet: Sheet) -> Iterator[Told]:
    """Yield what is done without; a claim that is not of this wish is shown as it is kept."""
    wish = next((one for one in sheet.parcels if one.sort is CallFor.WISH), None)
    for at, text in enumerate(sheet.said.given_up):
        says = () if wish is None else given_up_words(wish.answer.now, read_claims([text]))
        yield Told("Done without:", "".join(says) or text, f"given_up:{at}", clashes=False)


def _rows(
    memory: Memory, field: str, given: tuple[Plain, ...], clashing: list[Plain]
) -> Iterator[Told]:
    kept = [(at, one) for at, one in enumerate(given) if not _is_spoken(one)]
    groups = groupby(kept, key=lambda pair: -1 if _no_danger(pair[1]) else pair[0])
    for key, group in groups:
        places = [at for at, _ in group]
        if key < 0 and len(places) > 1:
            drop = f"{field}:{places[0]}-{places[-1]}"
            yield Told("Dangers asked about:", f"none of {len(places)}", drop, clashes=False)
            continue
        for at in places:
            asks, said = _in_words(memory, given[at])
            row = given[at]
            can_change = isinstance(row, dict) and ("look" in row or "sign" in row)
            yield Told(asks, said, f"{field}:{at}", row in clashing, can_change)


def _is_spoken(one: Plain) -> bool:
    """Tell whether it only notes which words were asked about."""
    return isinstance(one, dict) and "spoken" in one


def _no_danger(one: Plain) -> bool:
    return isinstance(one, dict) and "danger" in one and one.get("said") == Reply.NO.value


def _in_words(memory: Memory, one: Plain) -> tuple[str, str]:  # noqa: PLR0911 - a case for each sort
    calls = memory.compiled.book.calls
    match one:
        case {"look": str(look), "length_m": float(length)} if look in calls.looks:
            return calls.looks[look].question, f"{length * 1000:.0f} mm"
        case {"look": str(look), "value": str(value)} if look in calls.looks:
            return calls.looks[look].question, value
        case {"bought": int(year)}:
            return "Bought new in", str(year)
        case {"lamps": [*lamps]}:
            names = (memory.compiled.book.lamps.get(str(one)) for one in lamps)
            return "It is one of these:", ", ".join(
                f"{one.name} ({one.id})" for one in names if one
            )
        case {"sign": str(sign), "said": str(said)} if sign in calls.signs:
            return calls.signs[sign].question, said
        case {"danger": str(danger), "said": str(said)} if danger in GUARDS:
            return GUARDS[danger].asks, said
        case {"cleared": str(danger)} if danger in GUARDS:
            return f"Cleared: {DANGERS[danger]}", GUARDS[danger].clears
        case {"remedy": str(remedy), "outcome": str(outcome)} if remedy in calls.remedies:
            return f"Done: {calls.remedies[remedy].says}", outcome
        case dict():
            return "An answer this fit book does not know", ", ".join(map(str, one.values()))
        case _:
            return "An answer that cannot be read", str(one)


def _clashing(sheet: Sheet) -> list[Plain]:
    from wickwright.answers.plain.cases import plain_events  # noqa: PLC0415 - used here only
    from wickwright.answers.plain.lamps import plain_heard  # noqa: PLC0415 - used here only

    heard = sheet.which.recognition.clash if sheet.which else ()
    events = sheet.case.advice.clash if sheet.case else ()
    return [*plain_heard(heard), *plain_events(events)]


UNSURE_CHOICE: Final = Choice(UNSURE, UNSURE, "d")
"""What a caller says who does not know."""
