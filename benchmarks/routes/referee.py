"""A solver in a process of its own, so that it can be stopped when its time is up.

A running solver cannot be interrupted from Python. The process lives on from one query to
the next, so that loading the solver is not counted; its own clock times each query.
"""

from __future__ import annotations

from dataclasses import dataclass
from multiprocessing import get_context
from time import perf_counter
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable
    from multiprocessing.connection import Connection
    from multiprocessing.context import SpawnProcess

__all__ = ["Referee", "Timed"]

Task = TypeVar("Task")
Outcome = TypeVar("Outcome")


@dataclass(frozen=True, slots=True)
class Timed(Generic[Outcome]):
    """An outcome and how long it took.

    Attributes
    ----------
    outcome : object or None
        None when the time was up.
    seconds : float
        Taken; the limit when the time was up.
    """

    outcome: Outcome | None
    seconds: float


class Referee(Generic[Task, Outcome]):
    """Runs one solver within a time limit.

    Parameters
    ----------
    solver : callable
        A function of a module; takes a task, returns an outcome.
    limit : float
        Time allowed for one task [s].
    """

    def __init__(self, solver: Callable[[Task], Outcome], limit: float) -> None:
        self.solver, self.limit = solver, limit
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None

    def warm(self, task: Task) -> None:
        """Start the process and let the solver load itself on a first task."""
        self._ask(task, 10 * self.limit)

    def ask(self, task: Task) -> Timed[Outcome]:
        """Run one task.

        Parameters
        ----------
        task : object
            Handed to the solver.

        Returns
        -------
        Timed
            The outcome, or that the time was up.
        """
        return self._ask(task, self.limit)

    def _ask(self, task: Task, limit: float) -> Timed[Outcome]:
        pipe = self._pipe or self._start()
        pipe.send(task)
        if not pipe.poll(limit):
            self.stop()
            return Timed(None, limit)
        outcome, seconds = pipe.recv()
        if isinstance(outcome, BaseException):
            raise outcome
        return Timed(outcome, seconds)

    def _start(self) -> Connection:
        context = get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=_serve, args=(theirs, self.solver), daemon=True)
        self._process.start()
        return self._pipe

    def stop(self) -> None:
        """End the process."""
        if self._process is not None:
            self._process.kill()
            self._process.join()
        self._process = self._pipe = None


def _serve(pipe: Connection, solver: Callable[[Task], Outcome]) -> None:
    while True:
        try:
            task = pipe.recv()
        except EOFError:
            return
        start = perf_counter()
        try:
            outcome: Outcome | Exception = solver(task)
        except Exception as error:  # noqa: BLE001 - handed to the one who asked
            outcome = error
        pipe.send((outcome, perf_counter() - start))
