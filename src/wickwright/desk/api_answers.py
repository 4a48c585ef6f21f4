"""Answers for programs: what fits, what to buy, how a lamp burns, whether a basket is right."""

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.check_order import check_orders
from wickwright.answers.do_they_fit import do_they_fit
from wickwright.answers.flames.above_and_beside import above_and_beside
from wickwright.answers.flames.predict_burn import BurnAnswer, Burns, OnABulb, predict_burn
from wickwright.answers.flames.room_air import RoomPlan, room_air
from wickwright.answers.places.town_table import Town
from wickwright.answers.plain.answers import Plain, plain_answer, plain_pair
from wickwright.answers.plain.burning import plain_burn, plain_near, plain_room
from wickwright.answers.plain.cases import CaseFault, plain_advice, read_events
from wickwright.answers.plain.lamps import plain_recognition, read_heard
from wickwright.answers.plain.orders import plain_order
from wickwright.answers.plain.places import plain_town
from wickwright.answers.sheet.call_record import Said
from wickwright.answers.way_taken import NoSuchWayError
from wickwright.answers.which_parts import which_parts
from wickwright.answers.words.cautions import CAUTIONS
from wickwright.answers.worked_out import Circumstances
from wickwright.burn.checks import BurnError
from wickwright.catalogue.records import Service
from wickwright.catalogue.spelling import meant, quoted, spelled
from wickwright.cause.knowledge import NothingKnownError
from wickwright.cause.spoken import not_heard_yet, spoken_of
from wickwright.desk.api_answer_shapes import PairAnswer, RoutesAnswer
from wickwright.desk.api_bodies import (
    BasketAsked,
    BurnAsked,
    RoomAsked,
    RoutesAsked,
    WhichAsked,
    WhyAsked,
)
from wickwright.desk.api_burn_shapes import BurnAnswer as BurnShape
from wickwright.desk.api_here import BookAsked, BookHere, answer
from wickwright.desk.api_names import LookUp, Where
from wickwright.desk.api_order_shapes import BasketAnswer, WhichAnswer, WhyAnswer
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong
from wickwright.desk.api_told import told
from wickwright.desk.state import state_of
from wickwright.orders.lines import Line, Order
from wickwright.room.checks import RoomError

__all__ = ["router"]

router = APIRouter(tags=["answers"])

_NAMES = (Refusal.UNKNOWN_NAME,)
_BODY = (Refusal.UNKNOWN_NAME, Refusal.NOT_READABLE, Refusal.TOO_LARGE, Refusal.WRONG_MEDIA)

PartName = Annotated[str, Query(min_length=1, max_length=100)]
Kelvin = Annotated[float | None, Query(ge=200, le=1500, allow_inf_nan=False)]


def _look_up(request: Request, asked: BookAsked) -> LookUp:
    return LookUp(asked, state_of(request).towns)


def _with_town(plain: dict[str, Plain], town: Town | None) -> Response:
    return answer({**plain, "town": plain_town(town) if town else None})


def _coins(budget: str | None) -> int | None:
    if budget is None:
        return None
    whole, _, hundredths = budget.partition(".")
    return int(whole) * 100 + int(hundredths.ljust(2, "0"))


# -- routes --------------------------------------------------------------------------------------


@router.post("/routes", summary="Which parts to buy", responses=told(RoutesAnswer, refused=_BODY))
def routes(request: Request, asked: BookHere, body: RoutesAsked) -> Response:
    """Find every unbeaten way from what a caller has to what is wanted, or why there is none."""
    look_up = _look_up(request, asked)
    lamp, wish = look_up.lamp(body.lamp), look_up.wish(body.wish)
    have, lost = look_up.parts(body.have), look_up.lost(body.lost)
    elevation, town = look_up.place(body)
    look_up.done()
    compiled = asked.opened.compiled
    found = which_parts(
        compiled,
        lamp,
        wish,
        have=have,
        lost=lost,
        bare=body.bare,
        elevation=elevation,
        count=body.count,
        budget=_coins(body.budget),
    )
    return _with_town(plain_answer(compiled, found, asked.units), town)


# -- two parts -----------------------------------------------------------------------------------


@router.get(
    "/fits", summary="Whether two parts fit", responses=told(PairAnswer | None, refused=_NAMES)
)
def fits(
    asked: BookHere,
    below: Annotated[PartName, Query(examples=["GA-2450"], description="A part.")],
    above: Annotated[PartName, Query(examples=["CH-3296"], description="Another part.")],
    below_k: Annotated[Kelvin, Query(description="Its temperature in service.")] = None,
    above_k: Annotated[Kelvin, Query(description="Its temperature in service.")] = None,
) -> Response:
    """Judge two parts, whichever stands on the other; null where neither carries such parts."""
    parts = asked.opened.book.parts
    asked_for = {"below": below, "above": above}
    found = {name: spelled(text, parts) for name, text in asked_for.items()}
    wrong = [
        Wrong(
            "query",
            (name,),
            f"there is no part {quoted(text)} in the fit book: {meant(text, parts)}"
            "GET /api/v1/parts lists them",
        )
        for name, text in asked_for.items()
        if not found[name]
    ]
    if wrong:
        raise ProblemError(Refusal.UNKNOWN_NAME, "; ".join(one.says for one in wrong), wrong)
    pair = do_they_fit(
        asked.opened.compiled, found["below"], found["above"], one_at=below_k, other_at=above_k
    )
    return answer(plain_pair(pair, asked.units) if pair else None)


# -- baskets -------------------------------------------------------------------------------------


@router.post(
    "/baskets", summary="Whether a basket is right", responses=told(BasketAnswer, refused=_BODY)
)
def baskets(request: Request, asked: BookHere, body: BasketAsked) -> Response:
    """Tell every fault of a basket, and put it right; unknown parts are among its faults."""
    look_up = _look_up(request, asked)
    elevation, town = look_up.place(body)
    look_up.done()
    lines = tuple(Line(at, one.part, str(one.count)) for at, one in enumerate(body.lines, 1))
    place = "" if elevation is None else f"{elevation:.3f} m"
    order = Order(body.order, body.lamp or "", place, lines)
    checked = next(check_orders(asked.opened.compiled, [order]))
    lamp = checked.checked.understood.lamp
    return _with_town(
        {
            **plain_order(checked, asked.units),
            "currency": asked.units.currency,
            "cautions": list(CAUTIONS[lamp.service if lamp else Service.OIL]),
        },
        town,
    )


# -- flames --------------------------------------------------------------------------------------


@router.post("/burn", summary="How a lamp burns", responses=told(BurnShape, refused=_BODY))
def burn(request: Request, asked: BookHere, body: BurnAsked) -> Response:
    """Compute light, fuel, draft and heat of a lamp where it stands, each with its error bar."""
    look_up = _look_up(request, asked)
    lamp, have = look_up.lamp(body.lamp), look_up.parts(body.have)
    lost, tried = look_up.lost(body.lost), look_up.parts(body.with_, "with")
    elevation, town = look_up.place(body)
    look_up.done()

    def burning(on_it: tuple[str, ...]) -> BurnAnswer:
        return predict_burn(
            asked.opened.compiled,
            lamp,
            have=on_it,
            lost=lost,
            bare=body.bare,
            elevation=elevation,
            setting=body.setting,
        )

    try:
        found = burning((*have, *tried))
        before = burning(have) if tried and isinstance(found, Burns) else None
        return _with_town(_plain_burn(asked, lamp, found, before, body.room), town)
    except RoomError as error:
        wrong = [Wrong("body", ("room",), says) for says in error.faults]
        raise ProblemError(Refusal.NOT_USABLE, wrong[0].says, wrong) from error
    except BurnError as error:
        raise ProblemError(
            Refusal.NOT_USABLE, str(error), (Wrong("body", (), str(error)),)
        ) from error


def _plain_burn(
    asked: BookAsked,
    lamp: str,
    found: BurnAnswer,
    before: BurnAnswer | None,
    room: RoomAsked | None,
) -> dict[str, Plain]:
    units = asked.units
    near: Plain = None
    told_room: Plain = None
    if isinstance(found, Burns):
        parts = tuple(it.part for it in found.assembly.walk())
        near = plain_near(above_and_beside(found.prediction, (), (), parts), units)
        if room is not None:
            told_room = plain_room(room_air(found.prediction, _plan(room)), units)
    return {
        "lamp": lamp,
        **plain_burn(found, units),
        "before": plain_burn(before, units) if isinstance(before, Burns) else None,
        "room": told_room,
        "near": near,
        "calibration": None,
        "cautions": list(CAUTIONS[Service.ELECTRIC if isinstance(found, OnABulb) else Service.OIL]),
    }


def _plan(room: RoomAsked) -> RoomPlan:
    return RoomPlan(room.volume_m3, room.lamps, room.people, room.time_s, room.air_change_per_s)


# -- step by step --------------------------------------------------------------------------------


@router.post("/which", summary="Which lamp it is", responses=told(WhichAnswer, refused=_BODY))
def which(request: Request, asked: BookHere, body: WhichAsked) -> Response:
    """Say which lamp it may be, and what to look at next."""
    look_up = _look_up(request, asked)
    wish, lost = look_up.wish(body.wish), look_up.lost(body.lost)
    elevation, town = look_up.place(body)
    asking = asked.opened.asking
    if asking is None:
        says = "This fit book has nothing to tell lamps by."
        raise ProblemError(Refusal.NOT_USABLE, says)
    heard = read_heard(body.heard, asking)
    look_up.case_faults("heard", [one for one in heard if isinstance(one, CaseFault)])
    look_up.done()
    told_so = tuple(one for one in heard if not isinstance(one, CaseFault))
    said = Said(lost=lost, elevation=elevation)
    found = asked.opened.memory(asked.units.system).which(said, wish, told_so)
    return _with_town(plain_recognition(found), town) if found else answer(None)


@router.post("/why", summary="What is wrong with a lamp", responses=told(WhyAnswer, refused=_BODY))
def why(request: Request, asked: BookHere, body: WhyAsked) -> Response:
    """Say what to ask or do next about a complaint; dangers come first."""
    look_up = _look_up(request, asked)
    lamp, complaint = look_up.lamp(body.lamp), look_up.complaint(body.complaint)
    have, lost = look_up.parts(body.have), look_up.lost(body.lost)
    where = look_up.place(body)
    events = read_events(body.events, asked.opened.book.calls)
    look_up.case_faults("events", [one for one in events if isinstance(one, CaseFault)])
    look_up.done()
    done = tuple(one for one in events if not isinstance(one, CaseFault))
    spoken = not_heard_yet(spoken_of(body.words, asked.opened.book.calls), done)
    try:
        found = asked.opened.memory(asked.units.system).case(
            lamp, complaint, have, lost, _circumstances(body, where), (*done, *spoken)
        )
        return _with_town(plain_advice(found), where[1])
    except (NothingKnownError, NoSuchWayError, RoomError) as error:
        raise ProblemError(
            Refusal.NOT_USABLE, str(error), (Wrong("body", (), str(error)),)
        ) from error


def _circumstances(body: WhyAsked, where: Where) -> Circumstances:
    return Circumstances(where[0], body.hours, _plan(body.room) if body.room else None)
