"""Pages for what cannot be, is not known, or was not found out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.to_measure import settled_by
from wickwright.answers.words.wording import (
    LAWS,
    claim_words,
    give_up_words,
    kept_off,
    leaves_it,
    nowhere_words,
    sentence,
)
from wickwright.cli.layout import bullet, paragraph, right
from wickwright.cli.words import availability, finding_lines, listed, money
from wickwright.fit.audit import called
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickwright.fit.routes import Gave, Impossible, NotKnown, Route, WayOut
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["gave_up_lines", "impossible_lines", "measurement_lines"]


def impossible_lines(answer: Impossible, units: Units, width: int) -> list[str]:
    """Say why there is no way, and the nearest that there is."""
    lines = ["It cannot be done.", *_because(answer, units, width)]
    said = "\n".join(lines)
    for part in answer.blocked:
        if part.id not in said:
            state = availability(part) or "not to be had in that number"
            lines += paragraph(f"{called(part)} would do, but: {state}.", width, "  ")
    if not answer.complete:
        lines += paragraph(_NOT_ALL_TRIED, width)
    offers = [(it, out) for out in answer.ways_out if (it := give_up_words(out.give_up, answer))]
    if not offers:
        return [*lines, "", *paragraph(_NO_OFFER, width)]
    lines += ["", "The nearest that can be done:"]
    for words, out in sorted(offers, key=lambda offer: bool(offer[1].elsewhere)):
        lines += _offer(words, out, units, width)
    return lines


_NO_OFFER = "Nothing that could safely be given up makes it possible. Do not send parts for it."
_NOT_ALL_TRIED = (
    "Some searches gave up before they knew: that it cannot be done is certain, but the reason "
    "may name more than it must, and the nearest way may be missing."
)
_NOTHING_HELPS = "Nothing in the fit book makes this lamp complete, whatever is given up."


def _because(answer: Impossible, units: Units, width: int) -> Iterator[str]:
    """Yield the claims that cannot all hold: what is wanted, then what the parts allow."""
    if not answer.because:
        yield from paragraph(_NOTHING_HELPS, width)
        return
    wanted, laws = _words(answer, laws=False), _words(answer, laws=True)
    if nowhere := nowhere_words(answer):
        laws = [nowhere]
    if len(wanted) + len(laws) == 1:
        yield "It cannot be that"
    elif wanted:
        yield "This cannot all be had:" if len(wanted) > 1 else "This cannot be had:"
    for one in wanted:
        yield from bullet(one, width)
    if laws:
        yield "because" if wanted else "These cannot all hold:"
    for one in laws:
        yield from bullet(one, width)
    for finding in answer.evidence:
        says = sentence(finding, units).says
        yield from paragraph(f"At best, with {finding.parts[-1]}: {says}", width, "    ")


def _words(answer: Impossible, *, laws: bool) -> list[str]:
    claims = (claim for claim in answer.because if (claim.sort in LAWS) is laws)
    kind = kept_off(answer)
    return [*dict.fromkeys(claim_words(one, answer.now, answer.blocked, kind) for one in claims)]


def _offer(words: str, out: WayOut, units: Units, width: int) -> list[str]:
    """One thing to give up, and what is sent then."""
    sent = [called(part) for part in out.buy if part not in out.elsewhere]
    if leaves_it(out):
        return bullet("leave the lamp as it is: nothing to buy", width)
    if out.elsewhere:
        says = f"find {listed([called(part) for part in out.elsewhere])} elsewhere: we have none"
    else:
        says = f"give up {words}"
    price = "not known" if out.price is None else money(out.price, units)
    first, *more = bullet(says, width - len(price) - 2)
    lines = [right(first, price, width), *more]
    if sent:
        lines += paragraph(f"then send {listed(sent)}", width, "    ")
    elif not out.elsewhere:
        lines.append("    nothing to buy")
    return lines


def measurement_lines(
    answer: NotKnown, units: Units, width: int, *, in_full: bool = False, has_all: bool = False
) -> list[str]:
    """Say which measurements would settle it: those of the cheapest way, or of every way."""
    shown = answer.routes if in_full else answer.routes[:1]
    lines = paragraph("It depends on something nobody has measured.", width)
    for at, route in enumerate(shown, start=1):
        many = f"For way {at}: measure" if len(shown) > 1 else "Measure"
        lines += _measure(f"{many}, and enter in the fit book:", _unknown(route), width)
    if _asks_for_more(answer, shown):
        named = "; '--all' names them" if has_all else ""
        lines += paragraph(f"The other ways need other figures{named}.", width)
    lines.append("Why:")
    for finding in _once(one for route in shown for one in _unknown(route)):
        lines += finding_lines(finding, units, width)
    return lines


def _unknown(route: Route) -> list[Finding]:
    return [one for one in route.findings if one.severity is Severity.UNKNOWN]


def _asks_for_more(answer: NotKnown, shown: Sequence[Route]) -> bool:
    """Tell whether a way that is not shown needs a figure that no way shown needs."""
    told, every = (
        {text for route in routes for one in _unknown(route) for text in settled_by(one)}
        for routes in (shown, answer.routes)
    )
    return bool(every - told)


def _once(findings: Iterable[Finding]) -> list[Finding]:
    return [*{(finding.rule, finding.parts): finding for finding in findings}.values()]


def _measure(head: str, findings: Iterable[Finding], width: int) -> Iterator[str]:
    wanted = dict.fromkeys(text for finding in _once(findings) for text in settled_by(finding))
    if wanted:
        yield head
        for text in wanted:
            yield from bullet(text, width)


def gave_up_lines(answer: Gave, width: int) -> list[str]:
    """Say that the search stopped."""
    says = (
        f"The search gave up after {answer.looked_at:,} steps and does not know. "
        "Ask for less at once: a wish with fewer asks, or name parts with --have."
    )
    return paragraph(says, width)
