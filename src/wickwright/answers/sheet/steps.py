"""What an adviser does on a sheet: each step makes a new state of what stands there."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final, Literal, cast

from wickwright.answers.places.place_names import ElevationTyped, elevation_typed, two_heights
from wickwright.answers.plain.cases import CaseFault, plain_events, read_events
from wickwright.answers.plain.lamps import length_heard, read_heard
from wickwright.answers.said.kind_words import kinds_called
from wickwright.answers.said.numbers_said import numbers_in
from wickwright.answers.said.words_said import broken_by_words
from wickwright.answers.sheet.call_record import UNSURE
from wickwright.answers.sheet.call_sheet import AskGiveUp, SheetFault, sheet_of
from wickwright.answers.sheet.given_up import claim_text
from wickwright.answers.sheet.one_line import one_line
from wickwright.catalogue.records import KINDS
from wickwright.catalogue.spelling import meant, spelled
from wickwright.cause.case import Outcome
from wickwright.cause.case import Said as Reply
from wickwright.cause.dangers import GUARDS
from wickwright.cause.spoken import not_heard_yet
from wickwright.terms.typed import parse_typed
from wickwright.terms.units import UnitsError, parse_elevation

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.call_record import Said
    from wickwright.answers.sheet.memory import Memory

__all__ = ["FIELDS", "UNSURE", "Typed", "step_taken"]

FIELDS: Final = (
    "words",
    "place",
    "lamp",
    "have",
    "lost",
    "bare",
    "count",
    "hours",
    "room",
    "people",
    "note",
    "reply",
)
"""Fields that are typed."""
_NOT_KNOWN: Final = frozenset({UNSURE, "dont know", "not known", "unknown", "d", "?"})
"""What an adviser types where the caller does not know."""
_LONGEST: Final = 20_000
"""Signs a field may have [-]."""
_LONGEST_PLACE: Final = 200
_LONGEST_LAMP: Final = 100
_YEAR: Final = 4
_MOST_LAMPS: Final = 1_000
_MOST_PEOPLE: Final = 200


class Typed:
    """A form as it came: one text for each name, or several.

    Parameters
    ----------
    fields : mapping of str to sequence of str
        As the browser sends them.
    """

    def __init__(self, fields: Mapping[str, Sequence[str]]) -> None:
        self._fields = fields

    def __contains__(self, name: str) -> bool:
        return name in self._fields

    def text(self, name: str) -> str:
        """Return a field, blank where it is not there."""
        return next(iter(self._fields.get(name, ())), "")

    def texts(self, name: str) -> list[str]:
        """Return every text of a field."""
        return [one for one in self._fields.get(name, ()) if one]


def step_taken(
    memory: Memory, said: Said, typed: Typed, towns: Callable[[], TownTable]
) -> tuple[Said, tuple[SheetFault, ...]]:
    """Return what stands on a sheet after a step.

    Parameters
    ----------
    memory : Memory
        The fit book.
    said : Said
        What stands there.
    typed : Typed
        The form. Fields of :data:`FIELDS` are typed over; ``choose`` picks a wish or complaint
        (``wish:KEY``), or says that a part is on the lamp (``have:NUMBER``); ``missing`` with
        ``looked`` names kinds of part; ``bought`` is a year; ``look`` with ``value`` or
        ``length``; ``sign`` with ``said``, and with ``instead`` in the place of an earlier answer
        (``events:3``); ``danger`` with ``asked``; ``cleared`` with ``said``; ``remedy`` with
        ``outcome`` and ``put_on``, the parts that were bought for it; ``without`` gives up what
        is offered (``ask:shade:1``); ``drop`` takes one answer back, or several (``heard:0``,
        ``events:0-6``); ``route`` picks a route by its parts; ``town`` a town and its height
        (``Leadville|3094``). With ``height`` a place lies so high [m], whatever it is called.
    towns : callable
        Gives the table of towns; called where a place is typed by name.

    Returns
    -------
    tuple of Said, and tuple of SheetFault
        The new state, and what of the form could not be used; the rest of it was.
    """
    taking = _Taking(memory, said, towns)
    taking.type_over(typed)
    for name, take in taking.steps.items():
        if name in typed:
            take(typed)
    return taking.said, tuple(taking.faults)


class _Taking:
    """A sheet while a step is taken."""

    def __init__(self, memory: Memory, said: Said, towns: Callable[[], TownTable]) -> None:
        self.memory, self.book, self.said = memory, memory.compiled.book, said
        self.towns = towns
        self.faults: list[SheetFault] = []
        self.steps: dict[str, Callable[[Typed], None]] = {
            "choose": self._choose,
            "looked": self._looked,
            "bought": self._bought,
            "look": self._look,
            "sign": self._sign,
            "asked": self._dangers,
            "cleared": self._cleared,
            "remedy": self._remedy,
            "without": self._without,
            "drop": self._drop,
            "route": self._route,
            "town": self._town,
        }

    def _fault(self, field: str, says: str, cure: str = "") -> None:
        self.faults.append(SheetFault(field, says, cure))

    def _set(self, **changes: object) -> None:
        self.said = replace(self.said, **changes)  # type: ignore[arg-type]

    # fields that are typed

    def type_over(self, typed: Typed) -> None:
        """Take over every typed field."""
        readers: dict[str, Callable[[str, str], None]] = {
            "lamp": self._lamp,
            "have": self._parts,
            "lost": self._parts,
            "count": self._whole,
            "people": self._whole,
            "hours": self._figure,
            "room": self._figure,
            "bare": self._bare,
        }
        for name in FIELDS:
            if name not in typed:
                continue
            if name == "place":
                self._place(typed)
                continue
            text = typed.text(name)
            if len(text) > _LONGEST:
                says = f"'{name}' has {len(text):,} signs, more than {_LONGEST:,}"
                self._fault(name, says, "shorten it; nothing of it was kept")
                continue
            readers.get(name, self._text)(name, text)

    def _text(self, name: str, text: str) -> None:
        if name == "words":
            self._lamp_said(text)
        self._set(**{name: text.replace("\r\n", "\n").replace("\x00", "").strip()})

    def _lamp_said(self, text: str) -> None:
        """Take the one lamp whose number comes into the words, where none is named yet."""
        lamps = numbers_in(text, self.book.lamps)
        if len(lamps) == 1 and not self.said.lamp and not numbers_in(self.said.words, lamps):
            self._lamp("lamp", lamps[0])

    def _place(self, typed: Typed) -> None:
        """Take over where the lamp stands; a name that may be several towns has no height yet."""
        text = one_line(typed.text("place"))[:_LONGEST_PLACE]
        if text.casefold() in _NOT_KNOWN:
            text = UNSURE
        if text == self.said.place and "height" not in typed:
            return
        self._set(place=text, elevation=None)
        try:
            if "height" in typed:
                self._set(elevation=parse_elevation(f"{typed.text('height')} m"))
            elif text and text != UNSURE:
                self._set(elevation=self._height(text))
        except UnitsError as error:
            self._fault("place", str(error))

    def _height(self, text: str) -> float | None:
        """Read a height; None where it may be one of two, or a town is still to be chosen."""
        if two_heights(text):
            return None
        bare: Literal["m", "ft"] = "ft" if self.memory.units.system == "us" else "m"
        found = elevation_typed(text, self.towns, bare)
        if isinstance(found, ElevationTyped):
            return found.elevation
        return found.meant.elevation if found.meant else None

    def _lamp(self, name: str, text: str) -> None:
        wanted = one_line(text)
        number = spelled(wanted, self.book.lamps)
        found = [number] if number else _by_name(wanted, self._lamp_names())
        if wanted and not found:
            self._set(lamp=wanted[:_LONGEST_LAMP])
        elif len(found) > 1 and self.memory.asking is not None:
            self._set(lamp="")
            self._hear("lamps", {"lamps": [*found]})
        elif len(found) > 1:
            cure = f"write one of their numbers: {', '.join(found)}"
            self._fault(name, f"'{wanted}' is the name of several lamps", cure)
        else:
            self._set(lamp="".join(found))
            if found:
                self._hear("lamps", None)

    def _lamp_names(self) -> dict[str, str]:
        return {lamp.id: lamp.name.casefold() for lamp in self.book.lamps.values()}

    def _hear(self, key: str, said: dict[str, Plain] | None) -> None:
        """Keep what is said once with the call, in place of what was said before."""
        kept = [one for one in self.said.heard if not (isinstance(one, dict) and key in one)]
        self._set(heard=(*kept, *([said] if said else ())))

    def _bought(self, typed: Typed) -> None:
        """Take over the year in which the lamp was bought new."""
        text = typed.text("bought").strip()
        said: dict[str, Plain] = {"bought": int(text) if text.isascii() and text.isdigit() else 0}
        if not text or self.memory.asking is None:
            self._hear("bought", None)
        elif len(text) > _YEAR or isinstance(read_heard([said], self.memory.asking)[0], CaseFault):
            self._fault("bought", f"'{text}' is no year", "write it in four digits, such as 1951")
        else:
            self._hear("bought", said)

    def _parts(self, name: str, text: str) -> None:
        among = {*self.book.parts, *(KINDS if name == "lost" else ())}
        found: list[str] = []
        for one in text.replace(",", " ").replace(";", " ").split():
            part = spelled(one, among)
            if part:
                found.append(part)
            elif name == "lost" and (kinds := kinds_called(one)):
                found += kinds if len(kinds) == 1 else ()
                if len(kinds) > 1:
                    says = f"'{one}' may be the {' or the '.join(kinds)}"
                    self._fault(name, says, "write which; the rest was taken")
            else:
                what = "part or kind of part" if name == "lost" else "part"
                cure = f"{meant(one, among)}the rest was taken"
                self._fault(name, f"there is no {what} '{one}' in the fit book", cure)
        self._set(**{name: tuple(dict.fromkeys(found))})

    def _whole(self, name: str, text: str) -> None:
        most, least = (_MOST_LAMPS, 1) if name == "count" else (_MOST_PEOPLE, 0)
        word = text.strip() or str(least)
        if word.isascii() and word.isdigit() and least <= int(word) <= most:
            self._set(**{name: int(word)})
            return
        self._fault(name, f"'{text}' is no whole number from {least} to {most}", "write 1, 2, 3")

    def _figure(self, name: str, text: str) -> None:
        kind, unit = ("time", "h") if name == "hours" else ("volume", "m3")
        word = text.strip()
        if not word:
            self._set(**{name: None})
            return
        try:
            with_unit = word + unit if word.replace(".", "", 1).isdigit() else word
            value = parse_typed(with_unit, kind)
        except UnitsError as error:
            self._fault(name, str(error))
            return
        self._set(**{name: value / 3600.0 if name == "hours" else value})

    def _bare(self, _name: str, text: str) -> None:
        self._set(bare=text in {"yes", "on", "true"})

    # steps

    def _choose(self, typed: Typed) -> None:
        for chosen in typed.texts("choose"):
            sort, _, key = chosen.partition(":")
            if sort == "have":
                self._parts("have", " ".join((*self.said.have, key)))
                continue
            among = {"wish": self.book.wishes, "complaint": self.book.calls.complaints}.get(sort)
            if among is None or (key and key not in among):
                self._fault("choose", f"there is no {sort or 'wish'} '{key}'", "choose another")
            else:
                gone = {"given_up": ()} if sort == "wish" and key != self.said.wish else {}
                self._set(**{sort: key}, **gone)
                if sort == "wish" and key:
                    self._broken(key)

    def _broken(self, wish: str) -> None:
        """Take a part that is to be renewed as broken where the caller's words say so."""
        renewed = [ask.kind for ask in self.book.wishes[wish].asks if ask.ask == "renew"]
        broken = [kind for kind in renewed if broken_by_words(self.said.words, kind)]
        self._set(lost=tuple(dict.fromkeys((*self.said.lost, *broken))))

    def _looked(self, typed: Typed) -> None:
        missing = typed.texts("missing")
        unknown = [one for one in missing if one not in KINDS]
        if unknown:
            says = f"there is no kind of part '{unknown[0]}'"
            self._fault("lost", says, "choose from those that are shown")
            return
        lost = tuple(dict.fromkeys((*self.said.lost, *missing)))
        self._set(lost=lost, looked_over=True)

    def _look(self, typed: Typed) -> None:
        look, value = typed.text("look"), typed.text("value")
        asking = self.memory.asking
        if asking is None or not asking.has(look):
            self._fault("heard", f"there is no look '{look}'", "answer what is asked")
            return
        sight = asking.sight(look)
        said: dict[str, Plain] = {"look": look, "value": value}
        if value != UNSURE and sight.is_measured:
            length = length_heard(typed.text("length"))
            if length is None:
                says = f"'{typed.text('length')}' is no length"
                self._fault("heard", says, "write a number and a unit, such as 31 cm or 12 1/4 in")
                return
            said = {"look": look, "length_m": length}
        elif value != UNSURE and value not in sight.answers:
            says = f"'{value}' is no answer to '{sight.look.question}'"
            self._fault("heard", says, f"choose one of: {'; '.join(sight.answers)}")
            return
        kept = [one for one in self.said.heard if not _is_about(one, "look", look)]
        self._set(heard=(*kept, said))

    def _sign(self, typed: Typed) -> None:
        sign, said = typed.text("sign"), typed.text("said")
        if sign not in self.book.calls.signs or said not in {one.value for one in Reply}:
            self._fault("events", f"'{said}' is no answer to '{sign}'", "answer yes, no or unknown")
            return
        event: dict[str, Plain] = {"sign": sign, "said": said}
        place, events = typed.text("instead").removeprefix("events:"), self.said.events
        if _is_place(place, len(events)) and _is_about(events[int(place)], "sign", sign):
            self._set(events=(*events[: int(place)], event, *events[int(place) + 1 :]))
            return
        if not self.book.calls.signs[sign].danger:
            self._set(events=_without(self.said.events, sign))
        self._then(event)

    def _dangers(self, typed: Typed) -> None:
        asked = [one for one in typed.texts("asked") if one in GUARDS]
        there, unsure = typed.texts("danger"), typed.text("said") == UNSURE
        unknown = [one for one in there if one not in asked]
        if unknown or not asked:
            self._fault(
                "events", f"there is no danger '{' '.join(unknown)}'", "answer what is asked"
            )
            return
        self._note_spoken(asked)
        for key in sorted(asked, key=lambda one: one not in there):
            reply = Reply.UNSURE if unsure and not there else Reply.NO
            self._then({"danger": key, "said": (Reply.YES if key in there else reply).value})

    def _note_spoken(self, asked: Sequence[str]) -> None:
        """Note which words were asked about: those that are said later are asked about anew."""
        read = (read_events([one], self.book.calls) for one in self.said.events)
        known = [one for row in read for one in row if not isinstance(one, CaseFault)]
        fresh = not_heard_yet(self.memory.spoken_in(self.said), known)
        for one in plain_events([one for one in fresh if one.danger in asked]):
            self._then(cast("dict[str, Plain]", one))

    def _cleared(self, typed: Typed) -> None:
        danger = typed.text("cleared")
        if danger not in GUARDS or not GUARDS[danger].clears:
            self._fault("events", f"'{danger}' cannot be cleared on the telephone", "send it in")
            return
        if typed.text("said") == Reply.YES.value:
            self._note_spoken([danger])
            self._then({"cleared": danger})
            return
        says = "then the lamp stays out, and nothing that needs a flame is offered"
        self._fault("events", says, "come back to this call when it is so")

    def _remedy(self, typed: Typed) -> None:
        remedy, outcome = typed.text("remedy"), typed.text("outcome")
        known = remedy in self.book.calls.remedies and outcome in {one.value for one in Outcome}
        if not known:
            self._fault("events", f"'{outcome}' is no outcome of '{remedy}'", "choose another")
            return
        bought = typed.text("put_on").split()
        if any(one not in self.book.parts for one in bought):
            self._fault("events", "a part that was bought is not in the fit book", "choose a way")
            return
        done: dict[str, Plain] = {"remedy": remedy, "outcome": outcome}
        self._then({**done, "bought": [*bought]} if bought else done)

    def _then(self, event: dict[str, Plain]) -> None:
        self._set(events=(*self.said.events, event))

    def _without(self, typed: Typed) -> None:
        """Give up what the sheet offers to give up."""
        asked = sheet_of(self.memory, self.said).asked
        offers = asked.outs if isinstance(asked, AskGiveUp) else ()
        for out in offers:
            texts = [claim_text(claim) for claim in out.give_up]
            if typed.text("without").split() == texts:
                self._set(given_up=(*self.said.given_up, *texts), route=())
                return
        self._fault("given_up", "that is not offered to be given up", "load the sheet again")

    def _drop(self, typed: Typed) -> None:
        field, _, places = typed.text("drop").partition(":")
        held: tuple[Plain, ...] = {
            "heard": self.said.heard,
            "events": self.said.events,
            "given_up": self.said.given_up,
        }.get(field, ())
        first, _, last = places.partition("-")
        last = last or first
        if not (_is_place(first, len(held)) and _is_place(last, len(held))):
            self._fault("drop", "there is no such answer to take back", "load the sheet again")
            return
        self._set(**{field: (*held[: int(first)], *held[int(last) + 1 :])})

    def _town(self, typed: Typed) -> None:
        """Take a town that was chosen among several: its name and height in one text."""
        place, _, height = typed.text("town").rpartition("|")
        self._place(Typed({"place": [place], "height": [height]}))

    def _route(self, typed: Typed) -> None:
        parts = typed.text("route").split()
        unknown = [one for one in parts if one not in self.book.parts]
        if unknown:
            self._fault("route", f"there is no part '{unknown[0]}'", "choose a way that is shown")
            return
        self._set(route=tuple(parts))


def _is_place(text: str, count: int) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 6 and int(text) < count  # noqa: PLR2004


def _without(events: tuple[Plain, ...], sign: str) -> tuple[Plain, ...]:
    """Leave out what was said of a sign since something was last done to the lamp."""
    done = [at for at, one in enumerate(events) if isinstance(one, dict) and "remedy" in one]
    since = done[-1] + 1 if done else 0
    return tuple(
        one for at, one in enumerate(events) if at < since or not _is_about(one, "sign", sign)
    )


def _is_about(one: Plain, key: str, value: str) -> bool:
    return isinstance(one, dict) and one.get(key) == value


def _by_name(text: str, names: Mapping[str, str]) -> list[str]:
    """Return the numbers of the lamps a name may be of; of those of that whole name."""
    wanted = text.casefold()
    if len(wanted) < 3:  # noqa: PLR2004 - too short to mean a name
        return []
    found = [number for number, name in names.items() if wanted in name]
    whole = [number for number in found if names[number] == wanted]
    return whole or found
