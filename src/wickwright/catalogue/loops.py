"""Loops in what should only run one way: successors, and parts that come with parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

__all__ = ["find_loops", "say_loop"]

_SHOWN = 20


def find_loops(edges: Mapping[str, Sequence[str]]) -> list[tuple[str, ...]]:
    """Return one loop for each edge that closes one.

    Parameters
    ----------
    edges : mapping of str to sequence of str
        Where one can go from each name.

    Returns
    -------
    list of tuple of str
        Each loop begins and ends with the same name; its last step closes it. Found by
        depth-first search in the order of ``edges``.
    """
    done: set[str] = set()
    loops: list[tuple[str, ...]] = []
    for start in edges:
        if start not in done:
            loops.extend(_from(start, edges, done))
    return loops


def _from(
    start: str, edges: Mapping[str, Sequence[str]], done: set[str]
) -> Iterator[tuple[str, ...]]:
    """Walk from one name, without recursion, and mark what was walked as done."""
    path = {start: 0}
    steps = [iter(edges.get(start, ()))]
    while steps:
        onward = next(steps[-1], None)
        if onward is None:
            steps.pop()
            name, _ = path.popitem()
            done.add(name)
        elif onward in path:
            yield (*list(path)[path[onward] :], onward)
        elif onward not in done:
            path[onward] = len(path)
            steps.append(iter(edges.get(onward, ())))


def say_loop(loop: Sequence[str]) -> str:
    """Print a loop.

    Parameters
    ----------
    loop : sequence of str
        The names, the first again at the end.

    Returns
    -------
    str
        Such as ``'A -> B -> A'``; the middle of a very long one is left out.
    """
    if len(loop) <= _SHOWN:
        return " -> ".join(loop)
    return " -> ".join((*loop[: _SHOWN - 2], "…", *loop[-2:]))
