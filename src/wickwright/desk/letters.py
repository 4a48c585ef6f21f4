"""The letter and the fit sheet of a call, as its sheet stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.pictures.lamp_drawing import small_lamp_drawing
from wickwright.answers.post.bench_letter import bench_letter, safety_letter
from wickwright.answers.post.besides import NOTHING, Besides, findings_of
from wickwright.answers.post.fit_sheet import fit_sheet
from wickwright.answers.post.one_of_these import lamps_meant
from wickwright.answers.post.printed_sheet import sheet_page
from wickwright.answers.post.reply_without_parts import reply_to
from wickwright.answers.post.unsaid_height import height_words
from wickwright.answers.sheet.call_sheet import AskBench, Known
from wickwright.answers.sheet.held_back import overruled
from wickwright.fit.routes import Routes
from wickwright.paper.sheet import sheet_pdf

if TYPE_CHECKING:
    from wickwright.answers.post.one_of_these import Meant
    from wickwright.answers.sheet.call_record import Call
    from wickwright.answers.sheet.call_sheet import Parcel, Sheet
    from wickwright.answers.sheet.memory import Memory

__all__ = ["letter_of", "sendable", "sheet_pdf_of"]


def sendable(worked: Sheet) -> Parcel | None:
    """Return the parcel that can be posted; None where there is none."""
    parcel = worked.parcel
    return parcel if parcel is not None and isinstance(parcel.answer, Routes) else None


def _besides(memory: Memory, worked: Sheet, parcel: Parcel, meant: Meant) -> Besides:
    remedies = memory.compiled.book.calls.remedies
    return Besides(
        meant,
        height_words(memory, worked.said, meant),
        overruled(worked),
        remedies[parcel.remedy] if parcel.remedy else None,
    )


def letter_of(memory: Memory, worked: Sheet, call: Call, adviser: str) -> str:
    """Write to the caller, whatever came of the call.

    Parameters
    ----------
    memory : Memory
        The fit book.
    worked : Sheet
        The sheet, worked out.
    call : Call
        Whose sheet it is.
    adviser : str
        Name at the foot; may be blank.

    Returns
    -------
    str
        What to do now where there is danger; how to send the lamp where the bench must see it;
        else what is sent and why. Blank where there is nothing to write yet.
    """
    caller, words, parcel = call.caller.name, call.said.words, worked.parcel
    if worked.gate is not None and worked.gate.shut:
        return safety_letter(
            memory.compiled, worked.gate.shut, call=str(call.number), caller=caller,
            adviser=adviser, complaint=words,
        )  # fmt: skip
    if isinstance(worked.asked, AskBench):
        sure = worked.known in {Known.NAMED, Known.SETTLED}
        return bench_letter(
            memory.compiled, worked.lamp if sure else "", call=str(call.number), caller=caller,
            adviser=adviser, complaint=words,
        )  # fmt: skip
    if parcel is None:
        return ""
    besides = NOTHING
    if parcel.route is not None:
        besides = _besides(memory, worked, parcel, lamps_meant(memory, worked, parcel))
    return reply_to(
        memory.compiled, parcel.answer, memory.units, way=parcel.chosen, caller=caller,
        adviser=adviser, complaint=words, diagnosis=worked.case if parcel.remedy else None,
        besides=besides,
    )  # fmt: skip


def sheet_pdf_of(memory: Memory, worked: Sheet, parcel: Parcel, call: Call) -> bytes:
    """Set the fit sheet of a parcel.

    Parameters
    ----------
    memory : Memory
        The fit book.
    worked : Sheet
        The sheet, worked out.
    parcel : Parcel
        One that has a route.
    call : Call
        Whose sheet it is.

    Returns
    -------
    bytes
        A PDF file; without a drawing where the caller's lamp is not known well enough.
    """
    meant = lamps_meant(memory, worked, parcel)
    besides = _besides(memory, worked, parcel, meant)
    now, route, flame = meant.ways[0]
    sheet = fit_sheet(
        memory.compiled,
        now,
        route,
        flame,
        findings_of(meant.ways),
        memory.units,
        call=str(call.number),
        handed_in=call.changed.date(),
        revision=call.revision,
        besides=besides,
    )
    drawing = small_lamp_drawing(memory.compiled, now, route) if besides.named else ""
    return sheet_pdf(sheet_page(sheet, memory.units), drawing)
