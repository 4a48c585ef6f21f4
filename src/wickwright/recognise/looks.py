"""What a caller would say about each part: right, mistaken, or not sure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.catalogue.call_records import Often, Way
from wickwright.chance.evidence import Ruler, measured

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.catalogue.call_records import CallBook, Look, Mark
    from wickwright.chance.arrays import Floats
    from wickwright.recognise.guesses import OnIt

__all__ = ["ABSENT", "Sight", "sights"]

ABSENT: Final = "there is none"
"""The answer where the lamp has no part of the kind that is looked at."""

_MISTAKEN: Final = {Often.OFTEN: 0.20, Often.SOMETIMES: 0.08, Often.SELDOM: 0.03}
"""Least share of callers who are wrong about a value that is taken for another [-]:
``assumption``."""
_PULL: Final = {Often.OFTEN: 30.0, Often.SOMETIMES: 10.0, Often.SELDOM: 3.0}
"""How much likelier the named mistake is than any other [-]: ``assumption``."""
_BY_EYE: Final = 0.02
"""Standard error that grows with the length [-]: ``assumption``."""
_NONE: Final = 0.1
"""How much rarer a length is where there is no part than where it is farthest off [-]."""
_BINS: Final = 24
"""Into how many spans a length is cut to weigh whether it is worth measuring [-]."""


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """One look, and what callers would say of every part it can be taken at.

    Attributes
    ----------
    look : Look
        The look.
    answers : tuple of str
        What can be answered, 'there is none' last; empty for a measured look.
    rows : array
        P(answer | part), 'don't know' last (parts, answers + 1) [-]; parts in the order of
        :class:`~wickwright.recognise.guesses.OnIt`, none last. A measured look is cut into spans.
    lengths : array
        Measured looks: length of each part (parts) [m]; nan where it is not in the book or
        there is no part.
    """

    look: Look
    answers: tuple[str, ...]
    rows: Floats
    lengths: Floats

    @property
    def is_measured(self) -> bool:
        """True when the answer is a length."""
        return self.look.way is Way.MEASURE

    def saw(self, value: str) -> Floats:
        """Return how probable an answer is for each part.

        Parameters
        ----------
        value : str
            One of ``answers``.

        Returns
        -------
        array
            P(answer | part) (parts) [-].

        Raises
        ------
        ValueError
            If it cannot be answered.
        """
        row: Floats = self.rows[:, self.answers.index(value)]
        return row

    def measured(self, length: float) -> Floats:
        """Return how probable a measured length is for each part.

        Parameters
        ----------
        length : float
            As the caller measured it [m].

        Returns
        -------
        array
            Up to a factor (parts) [-]. A part whose length is not in the book is as probable as
            the average of those that are; no part at all is a slip of the caller's.
        """
        known = ~np.isnan(self.lengths)
        density = measured(length, _ruler(self.look, self.lengths), self.lengths[known])
        likely = np.full(len(self.lengths), density.mean())
        likely[known] = density
        likely[-1] = likely.min() * _NONE
        return likely


def _ruler(look: Look, lengths: Floats) -> Ruler:
    span = float(np.nanmax(lengths, initial=0.1)) * 1.5
    return Ruler(look.error, _BY_EYE, min(0.5, 1.0 - look.right), span)


def _confused(look: Look, answers: Sequence[str], mark: Mark) -> Floats:
    """Return P(answer | mark) over all answers and 'don't know'."""
    weights = np.ones(len(answers))
    truth = answers.index(mark.value)
    wrong = 1.0 - look.right
    if mark.confused_with in answers:
        weights[answers.index(mark.confused_with)] = _PULL[mark.confused]
        wrong = max(wrong, _MISTAKEN[mark.confused])
    weights[truth] = 0.0
    if not weights.any():
        wrong = 0.0
    row = wrong * weights / max(weights.sum(), 1.0)
    row[truth] = 1.0 - wrong
    return np.append((1.0 - look.unsure) * row, look.unsure)


def _seen_rows(look: Look, marks: Iterable[Mark]) -> tuple[tuple[str, ...], dict[str, Floats]]:
    """Return the answers of a look and the row of each marked part; '' is a part not marked."""
    held = list(marks)
    answers = (*dict.fromkeys(mark.value for mark in held), ABSENT)
    rows = {mark.part: _confused(look, answers, mark) for mark in held}
    told = np.full(len(answers), (1.0 - look.unsure) / (len(answers) - 1 or 1))
    told[-1] = 0.0
    rows[""] = np.append(told, 1.0 - told.sum())
    return answers, rows


def _none_row(look: Look, width: int) -> Floats:
    row = np.full(width, (1.0 - look.unsure) * 0.02 / max(width - 2, 1))
    row[-2], row[-1] = 0.0, look.unsure
    row[-2] = 1.0 - row.sum()
    return row


_erf = np.vectorize(math.erf, otypes=[np.float64])


def _below(off: Floats) -> Floats:
    """Return the chance that a Gaussian lies below so many standard deviations [-]."""
    return 0.5 * (1.0 + np.asarray(_erf(off / math.sqrt(2.0)), dtype=np.float64))


def _spans(look: Look, lengths: Floats) -> Floats:
    """Return P(span | length) for lengths cut into spans, and 'don't know' (lengths, spans)."""
    error = np.hypot(look.error, _BY_EYE * lengths)
    low, high = float(np.min(lengths - 3 * error)), float(np.max(lengths + 3 * error))
    inner = np.linspace(low, high, _BINS + 1)[1:-1]
    edges = _below((inner[None, :] - lengths[:, None]) / error[:, None])
    within = np.diff(edges, axis=1, prepend=0.0, append=1.0)
    slip = min(0.5, 1.0 - look.right)
    told = (1.0 - look.unsure) * ((1.0 - slip) * within + slip / _BINS)
    return np.column_stack([told, np.full(len(lengths), look.unsure)])


def _measured_rows(look: Look, lengths: Floats) -> Floats:
    """Return the rows of spans of each part."""
    known = ~np.isnan(lengths)
    table = _spans(look, lengths[known])
    rows = np.repeat(table.mean(axis=0)[None, :], len(lengths), axis=0)
    rows[known] = table
    rows[-1] = np.append(np.zeros(table.shape[1] - 1), 1.0)
    return rows


def _seen(look: Look, parts: Sequence[str], marks: Sequence[Mark]) -> Sight:
    answers, by_part = _seen_rows(look, marks)
    rows = np.stack([by_part.get(part, by_part[""]) for part in parts])
    rows[-1] = _none_row(look, rows.shape[1])
    return Sight(look, answers, rows, np.full(len(parts), np.nan))


def _measurable(
    look: Look, parts: Sequence[str], lengths: Mapping[tuple[str, str], float]
) -> Sight:
    sizes = np.array([lengths.get((part, look.id), np.nan) for part in parts])
    return Sight(look, (), _measured_rows(look, sizes), sizes)


def sights(
    calls: CallBook, on: Mapping[str, OnIt], lengths: Mapping[tuple[str, str], float]
) -> tuple[Sight, ...]:
    """Lay every look out for every part it can be taken at.

    Parameters
    ----------
    calls : CallBook
        The call tables of the book.
    on : mapping of str to OnIt
        What may be on the lamps, by kind.
    lengths : mapping of (str, str) to float
        Measured looks: length by part and look [m].

    Returns
    -------
    tuple of Sight
        In the order of the book; looks that no part on any lamp answers are left out.
    """
    marks: dict[str, list[Mark]] = {}
    for mark in calls.marks:
        marks.setdefault(mark.look, []).append(mark)
    found = []
    for look in calls.looks.values():
        parts = on[look.kind].parts
        told = [mark for mark in marks.get(look.id, ()) if mark.part in parts]
        if told:
            measure = look.way is Way.MEASURE
            found.append(_measurable(look, parts, lengths) if measure else _seen(look, parts, told))
    return tuple(found)
