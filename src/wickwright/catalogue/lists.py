"""The closed lists a fit book's words are taken from."""

from __future__ import annotations

from wickwright.catalogue.call_records import COMPUTATIONS, DANGERS, Often, State, Way
from wickwright.catalogue.measures import MEASURES
from wickwright.catalogue.records import KINDS, Footing, Form, Need, Service, Side, Status

__all__ = ["ASKS", "FIELDS", "JOINTS", "LISTS", "MATERIALS", "TESTS"]

JOINTS: dict[str, str] = {
    "thread": "screw thread of a collar",
    "plain-foot": "smooth glass foot between spring fingers",
    "quarter-turn": "foot with grooves that turns under lugs",
    "wick": "wick on its tubes",
    "mantle": "mantle on its post or ring",
    "fitter": "shade's fitter inside a ring",
    "open-arms": "wire frame on open arms",
    "lampholder": "bulb in a lampholder",
    "rest": "foot in a recess, band or hook",
}
"""Every joint, with its name in words; :mod:`wickwright.fit.joints` judges them."""

MATERIALS: dict[str, str] = {
    "brass": "brass",
    "nickel-brass": "nickel-plated brass",
    "steel": "steel",
    "cast-iron": "cast iron",
    "aluminium": "aluminium",
    "glass": "heat-rated (borosilicate) glass",
    "soda-glass": "soda-lime glass, the lower grade",
    "porcelain": "porcelain",
    "cotton": "cotton",
    "oxide": "rare-earth oxide web",
    "cloth": "cloth",
    "parchment": "parchment",
    "wood": "wood",
}
"""What parts are made of; :mod:`wickwright.fit.expansion` knows how they grow with heat."""

ASKS: dict[str, str] = {
    "renew": "the part of this kind must be a new one",
    "present": "a part of this kind must be on the lamp",
    "absent": "no part of this kind may be on the lamp",
    "only": "parts of this kind must pass the test",
    "never": "parts of this kind must not pass the test",
    "brighter": "the lamp must give more light than it does; value: light points more",
    "service": "the lamp must burn oil or electricity",
}
"""What a wish can ask for."""

TESTS: tuple[str, ...] = ("is", "in", "at least", "at most")
"""How a part's column is compared."""

FIELDS: tuple[str, ...] = (
    "part",
    "material",
    "status",
    "style",
    "service",
    "joint",
    "from",
    "to",
    "height",
    "heat_rating",
    "light",
)
"""Columns a wish may test."""

LISTS: dict[str, tuple[str, ...]] = {
    "kinds": tuple(KINDS),
    "forms": tuple(Form),
    "services": tuple(Service),
    "statuses": tuple(Status),
    "sides": tuple(Side),
    "needs": tuple(Need),
    "footings": tuple(Footing),
    "joints": tuple(JOINTS),
    "materials": tuple(MATERIALS),
    "styles": ("period", "modern"),
    "hands": ("right", "left"),
    "asks": tuple(ASKS),
    "fields": FIELDS,
    "tests": TESTS,
    "measures": tuple(MEASURES),
    "look_ways": (Way.LOOK, Way.FEEL, Way.MEASURE),
    "sign_ways": tuple(Way),
    "states": tuple(State),
    "often": tuple(Often),
    "dangers": tuple(DANGERS),
    "computations": tuple(COMPUTATIONS),
}
"""Closed list by the name a column's ``of`` gives."""
