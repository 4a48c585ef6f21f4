"""How probable an answer is under each hypothesis, with the ways an answer goes wrong."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wickwright.chance.arrays import (
    NO_CHANCE,
    Floats,
    Ints,
    chance_faults,
    fixed,
    refuse,
    shape_faults,
)

__all__ = ["NO", "UNSURE", "YES", "Ruler", "Said", "answers_given", "confusion", "measured"]

YES, NO, UNSURE = 0, 1, 2
"""Rows of :func:`answers_given`."""

_SUM = 1e-9


@dataclass(frozen=True, slots=True)
class Said:
    """How well a yes-or-no question is answered.

    Attributes
    ----------
    yes_right : float
        Chance of yes where the sign is there, among those who answer [-].
    no_right : float
        Chance of no where the sign is not there, among those who answer [-].
    unsure : float
        Chance of 'don't know' where the sign is there [-].
    unsure_absent : float, optional
        The same where it is not there [-]; as ``unsure`` if left out, and then 'don't know'
        says nothing about the sign.

    Raises
    ------
    ChanceError
        For every number that is no chance.
    """

    yes_right: float
    no_right: float
    unsure: float = 0.0
    unsure_absent: float | None = None

    def __post_init__(self) -> None:
        faults: list[str] = []
        for name in ("yes_right", "no_right", "unsure", "unsure_absent"):
            value = getattr(self, name)
            if value is not None and not 0.0 <= value <= 1.0:
                faults.append(f"{name} is {value:g}; {NO_CHANCE}")
        refuse(faults)


def answers_given(said: Said, sign: Floats) -> Floats:
    """Return the chance of yes, no and 'don't know' under every hypothesis.

    Parameters
    ----------
    said : Said
        How well the question is answered.
    sign : array
        P(sign | hypothesis) (hypotheses) [-].

    Returns
    -------
    array
        Rows :data:`YES`, :data:`NO`, :data:`UNSURE` (3, hypotheses) [-]; columns sum to 1.
        The last row is the same for all where both rates are, and then it moves no belief.
    """
    absent = said.unsure if said.unsure_absent is None else said.unsure_absent
    there, missing = (1.0 - said.unsure) * sign, (1.0 - absent) * (1.0 - sign)
    return np.stack(
        [
            there * said.yes_right + missing * (1.0 - said.no_right),
            there * (1.0 - said.yes_right) + missing * said.no_right,
            absent + (said.unsure - absent) * sign,
        ]
    )


@dataclass(frozen=True, slots=True)
class Ruler:
    """How well a length is measured.

    Attributes
    ----------
    absolute : float
        Standard error that does not grow with the length [unit of the length].
    relative : float
        Standard error over the length [-]; both add in squares.
    blunder : float
        Chance that the value is not of this length at all [-].
    span : float
        Range over which such a value may lie anywhere [unit of the length].

    Raises
    ------
    ChanceError
        If there is no error at all, or a blunder without a range.
    """

    absolute: float
    relative: float = 0.0
    blunder: float = 0.0
    span: float = 0.0

    def __post_init__(self) -> None:
        faults: list[str] = []
        if not (self.absolute >= 0.0 and self.relative >= 0.0 and self.absolute + self.relative):
            faults.append(
                f"A ruler's errors are {self.absolute:g} and {self.relative:g}; at least one has "
                "to be above 0 and none below: nobody measures without error."
            )
        if not 0.0 <= self.blunder < 1.0 or (self.blunder > 0.0 and not self.span > 0.0):
            faults.append(
                f"A blunder of {self.blunder:g} over a span of {self.span:g} is no chance: it "
                "lies from 0 to below 1, with a span above 0."
            )
        refuse(faults)


def measured(value: float, ruler: Ruler, true_values: Floats) -> Floats:
    """Return how probable a measured value is where the truth is known.

    Parameters
    ----------
    value : float
        What was measured [unit of the length].
    ruler : Ruler
        How well.
    true_values : array
        Length under every hypothesis (hypotheses) [unit of the length].

    Returns
    -------
    array
        Probability density (hypotheses) [1/unit of the length].

    Raises
    ------
    ChanceError
        If a value is not a number.

    Notes
    -----
    Gaussian of standard deviation sqrt(absolute**2 + (relative true)**2) about the true length,
    mixed with an even density over the span for blunders.
    """
    if not (np.isfinite(value) and np.isfinite(true_values).all()):
        refuse(["A length is not a number. Leave out hypotheses that have no such length."])
    spread = np.hypot(ruler.absolute, ruler.relative * true_values)
    off = (value - true_values) / spread
    bell: Floats = np.exp(-0.5 * off**2) / (np.sqrt(2.0 * np.pi) * spread)
    if ruler.blunder == 0.0:
        return bell
    return (1.0 - ruler.blunder) * bell + ruler.blunder / ruler.span


def confusion(matrix: Floats, classes: Ints) -> Floats:
    """Return the chance of every answer to a question of many answers.

    Parameters
    ----------
    matrix : array
        P(answer | truth) (truths, answers) [-]; rows sum to 1. 'Don't know' is an answer
        like the others.
    classes : array
        Which row is true under each hypothesis (hypotheses) [-].

    Returns
    -------
    array
        P(answer | hypothesis) (answers, hypotheses) [-].

    Raises
    ------
    ChanceError
        If a row does not sum to 1 or a class has no row.
    """
    table = fixed(matrix)
    faults = shape_faults("matrix", table, (None, None)) or chance_faults("matrix", table)
    if not faults:
        sums = table.sum(axis=1)
        faults = [
            f"Row {row} of the matrix sums to {sums[row]:.6g}; the answers to one truth sum to 1."
            for row in np.flatnonzero(np.abs(sums - 1.0) > _SUM)
        ]
        if classes.size and not 0 <= classes.min() <= classes.max() < len(table):
            faults.append(
                f"A class lies outside the {len(table)} rows of the matrix: "
                f"they go from {classes.min()} to {classes.max()}."
            )
    refuse(faults)
    return np.ascontiguousarray(table.T[:, classes])
