"""The screw thread of a collar: burner or reducer in font, burner in reducer."""

from __future__ import annotations

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.match import pitch, word
from wickwright.fit.joints.round_seat import RoundSeat

__all__ = ["CLEARANCE", "PITCH_SHARE", "THREAD"]

CLEARANCE = play(0.0, 0.60e-3, loose=0.30e-3)
"""Internal major less external major diameter [m]; 'assumption'.

At 14 threads an inch the basic threads overlap by 1.96 mm in diameter, so 0.90 mm leaves a
little more than half of the height in contact: loose, but it still holds.
"""

PITCH_SHARE = 0.02
"""How far pitches may differ, as a share of the greater; 'assumption'."""

SKETCH = r"""
      |<---- d ---->|           d  diameter: over the external thread
      |             |              (standing side)
   /\/\/\         /\/\/\        p  pitch: from crest to crest
  <p>  |           |            D  diameter: across the roots of the
 __\/\/\/         \/\/\/__         internal thread (carrying side)
      |<---- D ---->|           form un, round or tube; hand right or left
           collar               clearance = D - d
"""

THREAD = RoundSeat(
    key="thread",
    sketch=SKETCH,
    reads=("diameter", "pitch", "form", "hand"),
    source="assumption",
    borders=CLEARANCE,
    matches=(word("hand"), word("form"), pitch(PITCH_SHARE)),
)
"""Form and hand equal, pitch within 2 %, clearance 0 to 0.60 mm, loose to 0.90 mm."""
