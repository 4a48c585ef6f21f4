"""The wire frame of a cloth or parchment shade on open arms."""

from __future__ import annotations

from wickwright.fit.joints.grip import Grip
from wickwright.fit.joints.match import word

__all__ = ["OPEN_ARMS"]

SKETCH = r"""
          /  frame ring  \
         |<----- d ----->|      d  diameter: frame ring (standing side)
      \__|               |__/   capture: least and greatest ring that the
         |\     |     /|           arms take (carrying side)
         | \____|____/ |        form: number of arms, and number of arms the
         |<- capture ->|           frame has seats for
"""

OPEN_ARMS = Grip(
    key="open-arms",
    sketch=SKETCH,
    reads=("capture", "diameter", "form"),
    source="assumption",
    matches=(word("form", why="arms", needed=True),),
)
"""Ring inside the capture range, arms equal."""
