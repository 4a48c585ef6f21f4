from __future__ import annotations

from wickwright.catalogue.loops import find_loops, say_loop


def test_a_chain_that_ends_is_no_loop() -> None:
    """Every part with a successor would be at fault."""
    assert find_loops({"a": ("b", "c"), "b": ("d",), "c": ("d",)}) == []


def test_each_closing_step_gives_one_loop() -> None:
    """One of two loops would only come to light once the other is mended."""
    edges = {"x": ("a",), "a": ("b",), "b": ("a", "c"), "c": ("c",)}
    assert find_loops(edges) == [("a", "b", "a"), ("c", "c")]


def test_a_very_long_chain_does_not_exhaust_the_stack() -> None:
    """A book of thousands of parts that succeed one another would end in a crash."""
    edges = {str(n): (str(n + 1),) for n in range(20_000)} | {"20000": ("0",)}
    (loop,) = find_loops(edges)
    assert len(loop) == 20_002
    assert say_loop(loop) == (
        "0 -> 1 -> 2 -> 3 -> 4 -> 5 -> 6 -> 7 -> 8 -> 9 -> 10 -> 11 -> 12 -> 13 -> 14 -> 15 -> "
        "16 -> 17 -> … -> 20000 -> 0"
    )
