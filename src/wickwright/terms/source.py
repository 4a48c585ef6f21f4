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
    EXCERPT = "an excerpt of the source text seen"
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
    Source(
        "statics",
        "Statics of a rigid body: it tips when its weight leaves the base",
        Seen.CLOSED_FORM,
    ),
    Source(
        "rfc4180",
        "RFC 4180, Common Format and MIME Type for Comma-Separated Values Files, section 2",
        Seen.MEMORY,
    ),
    Source("ul153", "UL 153, Portable Electric Luminaires, clause 132.2.2 (8 degrees)", Seen.TEXT),
    Source(
        "ul153toy", "UL 153, Portable Electric Luminaires, clause 132.2.3 (15 degrees)", Seen.TEXT
    ),
    Source(
        "iec60598-2-4",
        "IEC 60598-2-4, Portable general purpose luminaires, clause 4.6.3 (6 degrees)",
        Seen.TEXT,
    ),
    Source(
        "iec60598-2-7",
        "IEC 60598-2-7, Portable luminaires for garden use (15 degrees)",
        Seen.QUOTED,
    ),
    Source(
        "iec60598-2-10",
        "IEC 60598-2-10, Portable luminaires for children, clause 10.6.2 (15 degrees)",
        Seen.TEXT,
    ),
    Source("en15493", "EN 15493 and ASTM F2417, Candles, fire safety (10 degrees)", Seen.MEMORY),
    Source(
        "iec60335-1", "IEC 60335-1, Household appliances, clause 20.1 (10 degrees)", Seen.MEMORY
    ),
    Source("asme-b1-1", "ASME B1.1, Unified inch screw threads (UN form)", Seen.QUOTED),
    Source(
        "iso286",
        "ISO 286, Geometrical product specifications, tolerances on linear sizes",
        Seen.MEMORY,
    ),
    Source("iso2768", "ISO 2768-1, General tolerances, class m", Seen.MEMORY),
    Source("scholz1995", "F. Scholz, Tolerance Stack Analysis Methods, 1995", Seen.TEXT),
    Source("iso3585", "ISO 3585, Borosilicate glass 3.3, properties", Seen.QUOTED),
    Source("expansion", "Expansion of brass, steel, soda-lime glass: handbook values", Seen.MEMORY),
    Source(
        "iec60061-1", "IEC 60061-1, Lamp caps and holders, sheets 7004-21 and 7004-21A", Seen.QUOTED
    ),
    Source("usstd1976", "US Standard Atmosphere 1976 (ISO 2533 below 32 km)", Seen.MEMORY),
    Source(
        "draft",
        "Buoyancy draft g H P/R (1/To - 1/Tm): proportional to height and to air pressure",
        Seen.CLOSED_FORM,
    ),
    Source(
        "staffell2011",
        "I. Staffell, The Energy and Fuel Data Sheet, 2011: kerosene 807 kg/m3",
        Seen.QUOTED,
    ),
    Source(
        "astm-d3699",
        "ASTM D3699, Kerosine, scope: No. 1-K for non-flue-connected burners",
        Seen.TEXT,
    ),
    Source(
        "cpsc5052", "US CPSC Document 5052: only water-clear 1-K, an outside window open", Seen.TEXT
    ),
    Source("junker2004", "U. Junker, QuickXplain, AAAI 2004", Seen.TEXT),
    Source(
        "reiter1987", "R. Reiter, A theory of diagnosis from first principles, 1987", Seen.MEMORY
    ),
    Source(
        "ashrae-psychrometrics",
        "ASHRAE Handbook, Fundamentals 2017, chapter 1 (Hyland and Wexler 1983)",
        Seen.QUOTED,
    ),
    Source(
        "lemmon2000",
        "Lemmon and others, Thermodynamic properties of air, J. Phys. Chem. Ref. Data 29 (2000)",
        Seen.LIBRARY,
    ),
    Source(
        "lemmon2004",
        "Lemmon, Jacobsen, Viscosity and conductivity of air, Int. J. Thermophys. 25 (2004) 21",
        Seen.LIBRARY,
    ),
    Source(
        "codata2018",
        "CODATA recommended values of the fundamental constants, 2018",
        Seen.LIBRARY,
    ),
    Source(
        "codata-thermo",
        "CODATA key values for thermodynamics: water, liquid and vapour",
        Seen.MEMORY,
    ),
    Source(
        "nasa-tm4513",
        "McBride, Gordon, Reno, Coefficients for thermodynamic properties, NASA TM-4513, 1993",
        Seen.LIBRARY,
    ),
    Source(
        "nasa-rp1311",
        "Gordon, McBride, Computer program for chemical equilibrium, NASA RP-1311, 1994",
        Seen.MEMORY,
    ),
    Source(
        "cantera",
        "Cantera 3.2.0 with its distributed data",
        Seen.LIBRARY,
    ),
    Source(
        "dodecane-heat",
        "n-Dodecane, liquid, formation -350.9 kJ/mol: chemicals 1.5.2",
        Seen.LIBRARY,
    ),
    Source(
        "kerosene-range",
        "Kerosene: heating values, density and flash point met in trade",
        Seen.MEMORY,
    ),
    Source(
        "ipcc2006",
        "IPCC Guidelines 2006, volume 2, tables 1.2 and 1.4: other kerosene",
        Seen.MEMORY,
    ),
    Source(
        "eia2016",
        "US EIA, Carbon dioxide emissions coefficients by fuel, 2 February 2016: kerosene",
        Seen.TEXT,
    ),
    Source(
        "astm-d1322",
        "ASTM D1322-19, Smoke point of kerosine, sections 3.1.3 and 14",
        Seen.TEXT,
    ),
    Source(
        "astm-d3699-table",
        "ASTM D3699, Kerosine, limits of sulfur and flash point",
        Seen.QUOTED,
    ),
    Source(
        "ashrae-chimney",
        "ASHRAE Handbook, Systems and Equipment, Chimneys: theoretical draft",
        Seen.QUOTED,
    ),
    Source(
        "crane410",
        "Crane, Flow of fluids, Technical Paper 410",
        Seen.LIBRARY,
    ),
    Source(
        "rennels2012",
        "Rennels, Hudson, Pipe flow, Wiley 2012",
        Seen.LIBRARY,
    ),
    Source(
        "shah-london1978",
        "Shah, London, Laminar flow forced convection in ducts, 1978",
        Seen.MEMORY,
    ),
    Source(
        "shah1978",
        "Shah, A correlation for laminar hydrodynamic entry length, J. Fluids Eng. 100 (1978) 177",
        Seen.MEMORY,
    ),
    Source(
        "entry-length",
        "Length of laminar development, 0.06 Re D: handbook value",
        Seen.MEMORY,
    ),
    Source(
        "incropera",
        "Bergman, Lavine, Incropera, DeWitt, Introduction to heat transfer, 6th ed., Wiley 2011",
        Seen.QUOTED,
    ),
    Source(
        "churchill-chu1975",
        "Churchill, Chu, Free convection from a vertical plate, IJHMT 18 (1975) 1323",
        Seen.LIBRARY,
    ),
    Source(
        "churchill-chu1975h",
        "Churchill, Chu, Free convection from a horizontal cylinder, IJHMT 18 (1975) 1049",
        Seen.LIBRARY,
    ),
    Source(
        "popiel2007",
        "Popiel, Wojtkowiak, Bober, Slender cylinder, Exp. Therm. Fluid Sci. 32 (2007) 607",
        Seen.LIBRARY,
    ),
    Source(
        "mcadams1954",
        "McAdams, Heat transmission, 3rd ed., McGraw-Hill 1954",
        Seen.LIBRARY,
    ),
    Source(
        "hausen1943",
        "Hausen, Laminar heat transfer in tubes, VDI Z. Beih. Verfahrenstechnik 4 (1943) 91",
        Seen.LIBRARY,
    ),
    Source(
        "chang-rhee1984",
        "Chang, Rhee, Blackbody radiation functions, Int. Comm. Heat Mass Transfer 11 (1984) 451",
        Seen.MEMORY,
    ),
    Source(
        "cie018",
        "CIE 018, The basis of physical photometry; V of CIE 1924: colour-science 0.4.7",
        Seen.LIBRARY,
    ),
    Source(
        "luckiesh1920",
        "Luckiesh, Artificial light, 1920",
        Seen.TEXT,
    ),
    Source(
        "nureg1805",
        "US NRC, NUREG-1805, Fire dynamics tools, chapters 5 and 9",
        Seen.TEXT,
    ),
    Source(
        "heskestad1983",
        "Heskestad, Luminous heights of turbulent diffusion flames, Fire Safety J. 5 (1983) 103",
        Seen.MEMORY,
    ),
    Source(
        "mccaffrey1979",
        "McCaffrey, Purely buoyant diffusion flames, NBSIR 79-1910, 1979",
        Seen.QUOTED,
    ),
    Source(
        "alpert1972",
        "Alpert, Calculation of response time of ceiling-mounted detectors, Fire Tech. 8 (1972)",
        Seen.QUOTED,
    ),
    Source(
        "soda-lime",
        "Soda-lime glass: expansion, stiffness, strain point, handbook values",
        Seen.MEMORY,
    ),
    Source(
        "timoshenko1951",
        "Timoshenko, Goodier, Theory of elasticity, thermal stress in plates",
        Seen.MEMORY,
    ),
    Source(
        "roark",
        "Roark, Formulas for stress and strain, circular rings under even radial loads",
        Seen.MEMORY,
    ),
    Source(
        "kingery1955",
        "Kingery, Factors affecting thermal stress resistance, J. Am. Ceram. Soc. 38 (1955) 3",
        Seen.MEMORY,
    ),
    Source(
        "callister",
        "Callister, Materials science and engineering, thermal shock",
        Seen.QUOTED,
    ),
    Source(
        "box",
        "Mass balance of one well-mixed room: closed form",
        Seen.CLOSED_FORM,
    ),
    Source(
        "traynor1983",
        "Traynor and others, Environ. Sci. Technol. 17 (1983) 369: kerosene heaters in a room",
        Seen.TEXT,
    ),
    Source(
        "astm-e741",
        "ASTM E741, Air change in a single zone by tracer gas dilution: concentration decay",
        Seen.TEXT,
    ),
    Source(
        "persily2017",
        "Persily, de Jonge, CO2 generation rates for building occupants, Indoor Air 27 (2017) 868",
        Seen.MEMORY,
    ),
    Source(
        "ashrae-people",
        "ASHRAE Handbook, Fundamentals: heat and moisture given off by people",
        Seen.MEMORY,
    ),
    Source(
        "osha-z1",
        "US OSHA, 29 CFR 1910.1000, Table Z-1: limits of air contaminants",
        Seen.QUOTED,
    ),
    Source(
        "osha-oxygen",
        "US OSHA, 29 CFR 1910.146: an atmosphere below 19.5 % oxygen is hazardous",
        Seen.QUOTED,
    ),
    Source(
        "safety-lamp",
        "Placard of a miner's flame safety lamp: 16 to 18 % oxygen dim flame, 10 to 16 % none",
        Seen.QUOTED,
    ),
    Source(
        "niosh-co",
        "US NIOSH, recommended limits of carbon monoxide",
        Seen.QUOTED,
    ),
    Source(
        "niosh-co2",
        "US NIOSH, recommended limits of carbon dioxide",
        Seen.MEMORY,
    ),
    Source(
        "us-ambient",
        "US national ambient air quality standards: carbon monoxide",
        Seen.QUOTED,
    ),
    Source(
        "who-europe2000",
        "WHO, Air quality guidelines for Europe, 2nd ed.: carbon monoxide",
        Seen.QUOTED,
    ),
    Source(
        "who-indoor2010",
        "WHO, Guidelines for indoor air quality, selected pollutants, 2010: carbon monoxide",
        Seen.MEMORY,
    ),
    Source(
        "who2021",
        "WHO, Global air quality guidelines, 2021: carbon monoxide",
        Seen.MEMORY,
    ),
    Source(
        "uba2008",
        "German Federal Environment Agency, CO2 in indoor air, Bundesgesundheitsbl. 51 (2008) 1358",
        Seen.TEXT,
    ),
    Source(
        "epa-mold",
        "US EPA, Mold course, chapter 2: indoor humidity below 60 %",
        Seen.QUOTED,
    ),
    Source(
        "du2012",
        "Du and others, Air change rates in homes, IJERPH 9 (2012) 4639: 126 houses",
        Seen.TEXT,
    ),
    Source(
        "rates2010",
        "Air exchange rates in three US cities, Indoor Air 20 (2010) 85: 509 measurements",
        Seen.TEXT,
    ),
    Source(
        "environ-int1987",
        "Inter-room transport, kerosene heaters, 1800 m, Environ. Int. 1987, 0160-4120(87)90085-7",
        Seen.TEXT,
    ),
    Source(
        "nfpa54",
        "NFPA 54, National Fuel Gas Code, 9.3.2, and IFGC 304.5: combustion air",
        Seen.TEXT,
    ),
    Source(
        "nfpa54-outdoor",
        "NFPA 54, National Fuel Gas Code: openings to outdoors",
        Seen.QUOTED,
    ),
    Source(
        "ashrae-opening",
        "ASHRAE Handbook, Fundamentals 1997, 25.13, equations 37 and 38: flow by warm air",
        Seen.QUOTED,
    ),
    Source(
        "babrauskas2001",
        "Babrauskas, Ignition of wood, 2001: 300 to 365 °C, at least 4.3 kW/m2",
        Seen.TEXT,
    ),
    Source(
        "wood-self-heating",
        "Hot surfaces and self-heating of wood, Fire and Materials 31 (2007) 125",
        Seen.TEXT,
    ),
    Source(
        "factory-mutual1949",
        "Factory Mutual, 1949: charring of wood by heat over hours and years",
        Seen.TEXT,
    ),
    Source(
        "wood-appliances",
        "US appliance standards: 90 °C on wood nearby",
        Seen.MEMORY,
    ),
    Source(
        "fabric-ignition",
        "Paper and cotton: self-ignition, handbook values",
        Seen.MEMORY,
    ),
    Source(
        "emissivity",
        "Emissivity of wood, cloth, painted plaster: handbook values near 0.9",
        Seen.MEMORY,
    ),
    Source(
        "pearl1988",
        "Pearl, Probabilistic reasoning in intelligent systems, 1988, 4.3.2: noisy OR",
        Seen.MEMORY,
    ),
    Source(
        "lauritzen1988",
        "Lauritzen, Spiegelhalter, Local computations with probabilities, JRSS B 50 (1988) 157",
        Seen.LIBRARY,
    ),
    Source(
        "beinlich1989",
        "Beinlich, Suermondt, Chavez, Cooper, The ALARM monitoring system, AIME 1989, 247",
        Seen.LIBRARY,
    ),
    Source(
        "heckerman1989",
        "Heckerman, A tractable inference algorithm for multiple diseases, arXiv 1304.1511",
        Seen.QUOTED,
    ),
    Source(
        "heckerman1995",
        "Heckerman, Breese, Rommelse, Decision-theoretic troubleshooting, CACM 38 (1995) 3, 49",
        Seen.QUOTED,
    ),
    Source(
        "breese1996",
        "Breese, Heckerman, Troubleshooting: repair and experiment, UAI 1996, arXiv 1302.3563",
        Seen.QUOTED,
    ),
    Source(
        "ottosen2012",
        "Ottosen, Jensen, Cost clusters with inside information, arXiv 1203.3502: bottom-up P/C",
        Seen.QUOTED,
    ),
    Source(
        "feige2004",
        "Feige, Lovász, Tetali, Approximating min sum set cover, Algorithmica 40 (2004) 219",
        Seen.QUOTED,
    ),
    Source(
        "golovin2010",
        "Golovin, Krause, Ray, Bayesian active learning with noisy observations, arXiv 1010.3091",
        Seen.QUOTED,
    ),
    Source(
        "lindley1956",
        "Lindley, Information provided by an experiment, Ann. Math. Statist. 27 (1956) 986",
        Seen.MEMORY,
    ),
    Source(
        "shannon1948",
        "Shannon, A mathematical theory of communication, 1948",
        Seen.MEMORY,
    ),
    Source(
        "vomlel2006",
        "Vomlel, Noisy-or classifier, Int. J. Intelligent Systems 21 (2006) 381: EM",
        Seen.MEMORY,
    ),
    Source(
        "gelman2013",
        "Gelman and others, Bayesian data analysis, 3rd ed., 2013, 2.4: Beta and counts",
        Seen.MEMORY,
    ),
    Source(
        "good1952",
        "Good, Rational decisions, JRSS B 14 (1952) 107: the logarithmic score",
        Seen.MEMORY,
    ),
    Source(
        "brier1950",
        "Brier, Verification of forecasts expressed in terms of probability, MWR 78 (1950) 1",
        Seen.MEMORY,
    ),
    Source(
        "naeini2015",
        "Naeini, Cooper, Hauskrecht, Well calibrated probabilities, AAAI 2015: calibration error",
        Seen.MEMORY,
    ),
    Source("allen-home", "Allen, Mechanical devices in the home, chapter XIV: lamps", Seen.EXCERPT),
    Source(
        "campbell-housekeeping",
        "Helen Campbell, The easiest way in housekeeping and cooking: lamps",
        Seen.EXCERPT,
    ),
    Source(
        "household-discoveries", "Household discoveries: Kerosene oil; Care of lamps", Seen.EXCERPT
    ),
    Source(
        "abel-redwood",
        "Metropolitan Board of Works, rules for lamps after Abel and Redwood",
        Seen.EXCERPT,
    ),
    Source("rensselaer1877", "Rensselaer Union, 31 May 1877: lamp explosions", Seen.EXCERPT),
    Source(
        "rensselaer1888", "Rensselaer Republican, 29 November 1888: lamps turned low", Seen.EXCERPT
    ),
    Source(
        "ramsower1917",
        "Ramsower, Equipment for the farm and the farmstead, 1917: flash point of kerosene",
        Seen.EXCERPT,
    ),
    Source("graphic1890", "The care of lamps, New Zealand Graphic, 11 October 1890", Seen.EXCERPT),
    Source(
        "household-work", "Household work and management: Lighting, parts 4 and 5", Seen.EXCERPT
    ),
    Source(
        "oil-lighting1913",
        "Oil, petrol-air gas and acetylene lighting, p. 115, after 1913; the book's title not seen",
        Seen.EXCERPT,
    ),
    Source(
        "pei-history", "Prince Edward Island local history, p. 67: lamps with mantles", Seen.EXCERPT
    ),
    Source(
        "oil-lamp-maintenance",
        "Oil lamp maintenance, reprinted from a household manual",
        Seen.EXCERPT,
    ),
    Source(
        "mantle-encyclopaedia",
        "Kerosene lamp: mantle lamp, encyclopaedia article, mirrored",
        Seen.EXCERPT,
    ),
    Source("republican1916", "Evening Republican, 22 July 1916: care of lamps", Seen.EXCERPT),
    Source("armyps669", "US Army, PS Magazine 669, August 2008: pressure lanterns", Seen.EXCERPT),
    Source(
        "geonames",
        "GeoNames (geonames.org), places of 500 people and more, records to March 2023, CC BY 4.0",
        Seen.TEXT,
    ),
)

SOURCES: dict[str, Source] = {entry.key: entry for entry in _ENTRIES}
"""The bibliography by key."""
