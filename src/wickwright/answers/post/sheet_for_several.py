"""A fit sheet for one of several lamps: what holds for all of them, and every caution of any."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.post.lamps_had import in_all

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickwright.answers.post.fit_sheet import FitSheet
    from wickwright.answers.post.fitting_steps import Step

__all__ = ["for_several"]

_IN_THE_WAY: Final = (
    "What stands in the way of these parts, such as a shade and its holder, comes off first and "
    "goes back on last."
)


def for_several(first: FitSheet, more: Sequence[FitSheet]) -> FitSheet:
    """Put the sheets of several lamps together: what holds for all, and what any must hear.

    Parameters
    ----------
    first : FitSheet
        Of the likeliest.
    more : sequence of FitSheet
        Of the others, for the same parts.

    Returns
    -------
    FitSheet
        Reasons, steps, parts put aside and figures are those that all have; what is done
        before, the first lighting and cautions are those that any has.
    """
    sheets = (first, *more)
    steps, differs = _steps_of_all(sheets)
    way = () if _same_steps(sheets) else (_IN_THE_WAY,)
    return replace(
        first,
        included=in_all(one.included for one in sheets),
        aside=in_all(one.aside for one in sheets),
        why=tuple(_agreed(texts) for texts in zip(*(one.why for one in sheets), strict=True)),
        before=(*_any_of(one.before for one in sheets), *way),
        steps=steps,
        lighting=_any_of(one.lighting for one in sheets),
        cautions=_any_of(one.cautions for one in sheets),
        figures=tuple(it for it in first.figures if all(it in one.figures for one in more)),
        assumed=tuple(it for it in first.assumed if all(it in one.assumed for one in more)),
        unnamed=differs,
    )


def _agreed(texts: tuple[str, ...]) -> str:
    return texts[0] if len(set(texts)) == 1 else ""


def _any_of(lists: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for texts in lists for text in texts))


def _shape(step: Step) -> tuple[object, ...]:
    """Return what a step has in common on lamps whose parts have other numbers."""
    carrier = step.carrier.kind if step.carrier else ""
    return (step.do, step.part.kind, step.joint, carrier, step.fresh)


def _same_steps(sheets: Sequence[FitSheet]) -> bool:
    return len({tuple(map(_shape, one.steps)) for one in sheets}) == 1


def _steps_of_all(sheets: Sequence[FitSheet]) -> tuple[tuple[Step, ...], frozenset[str]]:
    """Return the steps that every lamp has, and the kinds of part in which they differ."""
    first, *more = [{_shape(step): step for step in one.steps} for one in sheets]
    shared = [shape for shape in first if all(shape in one for one in more)]
    differs: set[str] = set()
    for shape in shared:
        differs |= {*_differing([one[shape] for one in (first, *more)])}
    steps = (_with_riders_of_all([one[shape] for one in (first, *more)]) for shape in shared)
    return tuple(steps), frozenset(differs)


def _differing(alike: Sequence[Step]) -> Iterator[str]:
    """Yield the kinds of which one step handles other parts on other lamps."""
    numbers: dict[str, set[str]] = {}
    for step in alike:
        carrier = (step.carrier,) if step.carrier else ()
        for part in (step.part, *carrier, *step.riders):
            numbers.setdefault(part.kind, set()).add(part.id)
    yield from (kind for kind, found in numbers.items() if len(found) > 1)


def _with_riders_of_all(alike: Sequence[Step]) -> Step:
    first, *more = alike
    shared = [{part.kind for part in one.riders} for one in more]
    riders = tuple(part for part in first.riders if all(part.kind in kinds for kinds in shared))
    return replace(first, riders=riders)
