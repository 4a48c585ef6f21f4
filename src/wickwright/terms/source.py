"""Where a number or a rule comes from.

Every rule, constant and table cites a key of this bibliography. ``docs/sources.bib`` is
generated from it; a test compares the two.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

__all__ = ["SOURCES", "Seen", "Source"]


class Seen(Enum):
    """How far a source was followed."""

    TEXT = "source text or a verbatim reproduction seen"
    QUOTED = "value seen on a page that quotes the source"
    LIBRARY = "computed with a named general-purpose library"
    CLOSED_FORM = "closed form computed by hand"
    MEMORY = "from memory, not seen"
    PRACTICE = "common practice, no published source"
    ASSUMPTION = "our own assumption"


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the bibliography.

    Attributes
    ----------
    key : str
        What a rule or constant cites.
    title : str
        Author, title, clause.
    seen : Seen
        How far the source was followed.
    """

    key: str
    title: str
    seen: Seen


_ENTRIES = (
    Source("practice", "Common practice of the trade", Seen.PRACTICE),
    Source("assumption", "Assumption of this project, open to measurement", Seen.ASSUMPTION),
    Source("book", "The maker's own fit book", Seen.TEXT),
    Source("statics", "Statics of a rigid body: it tips when its weight leaves the base", Seen.CLOSED_FORM),
    Source("ul153", "UL 153, Portable Electric Luminaires, clause 132.2.2 (8 degrees)", Seen.TEXT),
    Source("ul153toy", "UL 153, Portable Electric Luminaires, clause 132.2.3 (15 degrees)", Seen.TEXT),
    Source("iec60598-2-4", "IEC 60598-2-4, Portable general purpose luminaires, clause 4.6.3 (6 degrees)", Seen.TEXT),
    Source("iec60598-2-7", "IEC 60598-2-7, Portable luminaires for garden use (15 degrees)", Seen.QUOTED),
    Source("iec60598-2-10", "IEC 60598-2-10, Portable luminaires for children, clause 10.6.2 (15 degrees)", Seen.TEXT),
    Source("en15493", "EN 15493 and ASTM F2417, Candles, fire safety (10 degrees)", Seen.MEMORY),
    Source("iec60335-1", "IEC 60335-1, Household appliances, clause 20.1 (10 degrees)", Seen.MEMORY),
    Source("asme-b1-1", "ASME B1.1, Unified inch screw threads (UN form)", Seen.QUOTED),
    Source("iso286", "ISO 286, Geometrical product specifications, tolerances on linear sizes", Seen.MEMORY),
    Source("iso2768", "ISO 2768-1, General tolerances, class m", Seen.MEMORY),
    Source("scholz1995", "F. Scholz, Tolerance Stack Analysis Methods, 1995", Seen.TEXT),
    Source("iso3585", "ISO 3585, Borosilicate glass 3.3, properties", Seen.QUOTED),
    Source("expansion", "Expansion of brass, steel, soda-lime glass: handbook values", Seen.MEMORY),
    Source("iec60061-1", "IEC 60061-1, Lamp caps and holders, sheets 7004-21 and 7004-21A", Seen.QUOTED),
    Source("usstd1976", "US Standard Atmosphere 1976 (ISO 2533 below 32 km)", Seen.MEMORY),
    Source("draft", "Buoyancy draft g H P/R (1/To - 1/Tm): proportional to height and to air pressure", Seen.CLOSED_FORM),
    Source("staffell2011", "I. Staffell, The Energy and Fuel Data Sheet, 2011: kerosene 807 kg/m3", Seen.QUOTED),
    Source("astm-d3699", "ASTM D3699, Kerosine, scope: No. 1-K for non-flue-connected burners", Seen.TEXT),
    Source("cpsc5052", "US CPSC Document 5052: only water-clear 1-K, an outside window open", Seen.TEXT),
    Source("junker2004", "U. Junker, QuickXplain, AAAI 2004", Seen.TEXT),
    Source("reiter1987", "R. Reiter, A theory of diagnosis from first principles, 1987", Seen.MEMORY),
)

SOURCES: dict[str, Source] = {entry.key: entry for entry in _ENTRIES}
"""The bibliography by key."""
