"""The rules of the joints in words an adviser can read out, and findings made of verdicts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.joints import JOINTS
from wickwright.fit.joints.verdict import Fit
from wickwright.fit.spoken import spoken
from wickwright.terms.finding import Finding, Kind, Range, Rule, Severity

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part
    from wickwright.fit.clearance import Gap
    from wickwright.fit.joints.verdict import Joined
    from wickwright.terms.finding import Fact

__all__ = [
    "BRITTLE",
    "DETAILS",
    "RULES",
    "SIZES",
    "UNMEASURED",
    "joint_finding",
    "rule_key",
]

BRITTLE = frozenset({"glass", "soda-glass", "porcelain"})
"""Materials that break when a hot joint closes on them."""

SIZES = " Room between the two: {gap}; permitted: {permitted}."
"""End of a joint's sentence; left out where nothing was measured."""

UNMEASURED = "not measured"
"""Stands for a gap that is not known."""


def rule_key(joint: str) -> str:
    """Return the key of a joint's rule."""
    return f"joint-{joint}"


def _rule(joint: str, *, title: str, where: str, why: str, cure: str, breaks: str) -> Rule:
    sizes = SIZES if "diameter" in JOINTS[joint].reads else ""
    says = f"{{stander}} {where} {{carrier}}: {{verdict}}. {{detail}}{sizes}"
    return Rule(rule_key(joint), title, says, why, cure, JOINTS[joint].source, breaks)


RULES: tuple[Rule, ...] = (
    _rule(
        "thread",
        title="A burner screws into a collar of its own thread",
        where="in the collar of",
        why="A thread of another hand, form or pitch jams after a turn or strips. One that is "
        "much too small holds by the tips only and can let go with burning oil below it.",
        cure="Use a burner of the font's thread, or the reducer made for the two. Do not force "
        "it, and do not pack the thread.",
        breaks="A pair inside these limits that jams or shakes off, or a pair outside them that "
        "screws down by hand and holds.",
    ),
    _rule(
        "plain-foot",
        title="A smooth chimney foot sits between spring fingers",
        where="in the fingers of",
        why="The fingers take up a small difference and no more. A chimney pushed in too hard "
        "cracks when it warms; one held too loosely leans, draws false air and can fall.",
        cure="Take a chimney whose foot lies within the range of the gallery. Never bend the "
        "fingers while the lamp is hot.",
        breaks="A foot inside the range that the fingers do not hold, or one well outside it "
        "that they do.",
    ),
    _rule(
        "quarter-turn",
        title="A grooved foot turns under lugs and keeps room when hot",
        where="under the lugs of",
        why="Lugs and grooves must agree in number and turn. The joint does not give, so metal "
        "and glass that grow by different amounts need room, or the glass breaks.",
        cure="Take the chimney made for this gallery, or change to a plain-foot gallery that "
        "fits the same burner. Let the lamp cool before turning the glass.",
        breaks="Glass that breaks in a joint with room left hot, or lasts in one without.",
    ),
    _rule(
        "wick",
        title="A wick suits its tube",
        where="on the tube of",
        why="A wick that is too tight cannot be raised or lowered and may not go out when it is "
        "turned down. A loose one slips, burns uneven and smokes.",
        cure="Take the wick made for this burner. Do not trim a wick to size.",
        breaks="A wick inside these limits that the raiser cannot move or does not hold.",
    ),
    _rule(
        "mantle",
        title="A mantle's ring suits its seat",
        where="on the seat of",
        why="A mantle that is forced tears. One that is loose hangs aside, so that the flame "
        "blackens it on one side.",
        cure="Take the mantle made for this burner or gallery.",
        breaks="A mantle inside these limits that binds or hangs aside.",
    ),
    _rule(
        "fitter",
        title="A shade's fitter drops into the holder's ring with room to spare",
        where="in the ring of",
        why="Glass that is wedged in a ring cracks as it warms. A fitter far smaller than its "
        "ring sits askew and can drop through.",
        cure="Take a holder and a shade of the same fitter size.",
        breaks="A shade inside these limits that wedges or drops through.",
    ),
    _rule(
        "open-arms",
        title="A shade's frame sits on arms made for it",
        where="on the arms of",
        why="The frame has one seat for each arm. With another number, or a ring the arms do not "
        "reach, the shade can slide towards the hot chimney.",
        cure="Take a shade whose frame suits the holder's arms, or the holder made for it.",
        breaks="A frame within the range that slides off, or one outside it that sits fast.",
    ),
    _rule(
        "lampholder",
        title="A bulb has the holder's cap and no more than its watts",
        where="in the lampholder of",
        why="A cap of another kind makes no sure contact. A bulb stronger than the holder is made "
        "for overheats holder and wire. The local electrical code and the maker's leaflet "
        "come first.",
        cure="Take a bulb with the same cap and no more watts than the holder states. Oil out "
        "of the font before any bulb goes in.",
        breaks="A holder that overheats with a bulb of no more than its stated watts.",
    ),
    _rule(
        "rest",
        title="A foot stands in its recess, band or hook",
        where="in the rest of",
        why="A foot that does not go down to the bottom, or has room to shift, lets the lamp "
        "lean or slide.",
        cure="Take parts made for each other. Do not pad a recess near the flame.",
        breaks="A foot inside these limits that does not go down or that shifts.",
    ),
)
"""One rule for each joint."""

DETAILS: dict[str, str] = {
    "clearance": "Any two of their make have the room they need.",
    "clearance-likely": "Nearly any two of their make have the room they need.",
    "tight": "It is on the tight side.",
    "too-tight": "It is too tight to go on.",
    "loose": "It is on the loose side.",
    "too-loose": "It is too loose to hold.",
    "wide": "The sizes are not known closely enough: measure the two parts in hand.",
    "hot": "It goes together cold, but the room closes as the parts warm.",
    "material": "It goes together cold; whether the room closes hot depends on a material that "
    "is not known.",
    "label": "A measurement is not known, but both are marked '{carrier}'.",
    "labels": "A measurement is not known, and they are marked differently: the {below} "
    "'{carrier}', the {above} '{stander}'.",
    "sold": "A measurement is not known, but the two left the works joined.",
    "missing": "A measurement is not known, and no mark of size settles it.",
    "pitch": "One thread is coarser than the other: the {below} has {carrier}, the {above} "
    "{stander}.",
    "form": "The {below} is made for {carrier}, and the {above} for {stander}.",
    "hand": "The {below} has a {carrier}-hand thread, and the {above} a {stander}-hand thread.",
    "lugs": "The {below} has {carrier} lugs, and the {above} is made for {stander}.",
    "angle": "The {below} locks after a turn of {carrier}, and the {above} is made for {stander}.",
    "arms": "The {below} has {carrier} arms, and the {above} is made for {stander}.",
    "cap": "The caps are the same, and the bulb is within the limit.",
    "caps": "The {below} takes the cap {carrier}, and the {above} has the cap {stander}.",
    "limit": "The bulb takes {stander}; the holder is made for {carrier} at most.",
    "joint": "The {below} is made for {carrier}, and the {above} for {stander}.",
}
"""The reason of a verdict in a sentence that can be read out, by :func:`_detail_key`."""

_SEVERITY = {
    Fit.FITS: Severity.GOOD,
    Fit.EFFORT: Severity.NOTE,
    Fit.LOOSE: Severity.FAULT,
    Fit.BINDS_HOT: Severity.FAULT,
    Fit.NOT: Severity.FAULT,
    Fit.UNKNOWN: Severity.UNKNOWN,
}


def joint_finding(
    joined: Joined, joint_key: str, carrier_part: Part, stander_part: Part
) -> Finding:
    """Make a finding of a verdict.

    Parameters
    ----------
    joined : Joined
        What the joint's rule said.
    joint_key : str
        The joint, by its name in the fit book.
    carrier_part, stander_part : Part
        The two parts.

    Returns
    -------
    Finding
        Of the rule ``joint-<joint_key>``. ``measured`` is the likely gap cold, or the worst
        hot gap where the joint binds hot [m]. Facts: ``carrier``, ``stander``, ``gap``,
        ``permitted``, ``verdict``, ``why`` (its key), ``detail``; where there are any,
        ``hot`` (the worst hot gap), ``missing`` (measurements that would settle it), ``by_label``.
    """
    gap = _range(joined.likely)
    hot = _range(joined.hot)
    permitted = _range(joined.permitted)
    facts: dict[str, Fact] = {
        "carrier": _called(carrier_part),
        "stander": _called(stander_part),
        "gap": gap or UNMEASURED,
        "permitted": permitted or "not stated",
        "verdict": _verdict(joined),
        "why": joined.why,
        "detail": _detail(joined, joint_key, carrier_part, stander_part),
    }
    if hot is not None:
        facts["hot"] = hot
    if joined.missing:
        facts["missing"] = joined.missing
    if joined.by_label:
        facts["by_label"] = "by label only"
    binds = joined.fit is Fit.BINDS_HOT
    return Finding(
        rule_key(joint_key),
        _severity(joined, carrier_part, stander_part),
        (carrier_part.id, stander_part.id),
        facts,
        measured=hot if binds else gap,
        permitted=Range(0.0, None, Kind.LENGTH) if binds else permitted,
    )


def _detail(joined: Joined, joint_key: str, carrier: Part, stander: Part) -> str:
    words = spoken(joined, joint_key, carrier.kind, stander.kind)
    return DETAILS[_detail_key(joined)].format_map(words)


def _detail_key(joined: Joined) -> str:
    """Name the sentence: what does not fit at all is told otherwise than what is on one side."""
    if joined.fit is Fit.NOT and joined.why in {"tight", "loose"}:
        return f"too-{joined.why}"
    return joined.why


def _severity(joined: Joined, carrier: Part, stander: Part) -> Severity:
    if joined.fit is Fit.BINDS_HOT and BRITTLE & {carrier.material, stander.material}:
        return Severity.DANGER
    mild = Severity.NOTE if joined.by_label else Severity.GOOD
    return max(mild, _SEVERITY[joined.fit])


def _verdict(joined: Joined) -> str:
    return f"{joined.fit}, by label only" if joined.by_label else str(joined.fit)


def _range(gap: Gap | None) -> Range | None:
    return None if gap is None else Range(gap.low, gap.high, Kind.LENGTH)


def _called(part: Part) -> str:
    return f"{part.name} ({part.id})"
