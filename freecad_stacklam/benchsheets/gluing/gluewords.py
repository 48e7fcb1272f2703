# SPDX-License-Identifier: LGPL-2.1-or-later

"""How set-ups, lines, times and figures of a glue-up are written."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, length_text, most_text, number, unit_words
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, POUND
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, Burden, GlueUpPlan, LinePressure, SetUp
from freecad_stacklam.lamination.quantities import OUNCE, format_force, format_grams, format_pressure, format_time
from freecad_stacklam.lamination.words import figure, mark, say

#: What the moves on a timeline are called.
MOVES = {
    "spread": mark("spread"),
    "pins": mark("set pins"),
    "lay": mark("lay on"),
    "cauls": mark("set cauls"),
    "clamps": mark("tighten"),
}
#: Verdicts as they stand in the table of conditions.
VERDICTS = {"go": mark("go"), "wait": mark("WAIT"), "no": mark("NO")}


def set_up_name(set_up: SetUp) -> str:
    """What a set-up glues: “Pedestal, layers 1 to 4”, “Pedestal, layer 2: 3 staves”, “joint “Foot””."""
    if set_up.kind == EDGES:
        staves = len(set_up.staves)
        if not staves:
            return say("{stack}, layer {layer}, its staves", stack=set_up.stack, layer=set_up.first)
        return say("{stack}, layer {layer}: {staves} staves", stack=set_up.stack, layer=set_up.first, staves=staves)
    if set_up.kind == JOINT:
        return say("joint “{joint}”", joint=set_up.joint)
    return say("{stack}, layers {first} to {last}", stack=set_up.stack, first=set_up.first, last=set_up.last)


def title_of(set_up: SetUp) -> str:
    """The heading of its page: “Glue-up 3: Pedestal, layers 1 to 4”."""
    return say("Glue-up {number}: {set_up}", number=set_up.number, set_up=set_up_name(set_up))


def begun(words: str) -> str:
    """Words as they begin a sentence."""
    return words[:1].upper() + words[1:]


def parts_text(set_up: SetUp) -> str:
    """What goes on what, from the bottom: “1, 2, 3 and 4 to 6 (glued before)”."""
    if set_up.kind == EDGES:
        letters = [name.removeprefix(f"{set_up.stack} {set_up.first}").strip() or name for name in set_up.staves]
        return say("Staves {letters}", letters=listed(letters)) if letters else say("Its staves")
    if set_up.kind == JOINT:
        return listed(set_up.stacks) if set_up.stacks else set_up.stack
    return listed(
        [str(a) if a == b else say("{first} to {last} (one piece)", first=a, last=b) for a, b in set_up.joins]
    )


def line_name(set_up: SetUp, line: int) -> str:
    """A glue line: “4 | 5” between layers, “seam 2” between staves, “all walls” of a joint."""
    if set_up.kind == EDGES:
        return say("seam {line}", line=line)
    return say("its walls") if set_up.kind == JOINT else f"{line} | {line + 1}"


def pressed_name(set_up: SetUp, line: int) -> str:
    """The same where pressure is told: of a joint it is the seat that is pressed."""
    return say("its seat") if set_up.kind == JOINT else line_name(set_up, line)


def clock_text(seconds: float) -> str:
    """A moment on a clock that starts at 0: “3:05”, “1:02:30”."""
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def _each(units: Units, first: str, second: str) -> str:
    return f"{first} [{second}]" if units.both else first


def pressure_text(pressure: float, units: Units) -> str:
    """A pressure with its unit, in both where both are asked for."""
    return _each(units, format_pressure(pressure, units.first), format_pressure(pressure, units.second))


def force_text(force: float, units: Units) -> str:
    """A force with its unit."""
    return _each(units, format_force(force, units.first), format_force(force, units.second))


def grams_text(grams: float, units: Units) -> str:
    """Glue to pour, never less than is needed."""
    return _each(units, format_grams(grams, units.first), format_grams(grams, units.second))


def line_grams_text(grams: float, units: Units) -> str:
    """Glue of one line, so finely that the lines of a set-up add up to what is poured for it."""
    written = {"mm": figure(f"{grams:.1f} g"), "in": figure(f"{grams / OUNCE:.2f} oz")}
    return _each(units, written[units.first], written.get(units.second, ""))


def mass_text(mass: float, units: Units) -> str:
    """A weight: “13.2 kg” or “29 lb”."""
    written = {"mm": figure(f"{mass:.1f} kg"), "in": f"{mass / POUND:.0f} lb"}
    return _each(units, written[units.first], written.get(units.second, ""))


def area_text(area: float, units: Units) -> str:
    """An area, mm², as cm² or in²."""
    return f"{area / INCH**2:.0f} in²" if in_inches(units) else f"{area / 100:.0f} cm²"


def wanted_text(wanted: tuple[float, float], units: Units) -> str:
    """Least and most pressure that the glue wants: “0.70 to 1.40 MPa”."""
    low, unit = format_pressure(wanted[0], units.first).split(" ")
    high = format_pressure(wanted[1], units.first).split(" ")[0]
    return say("{low} to {high} {unit}", low=low, high=high, unit=unit)


def burden_text(burden: Burden, foot: float, units: Units) -> str:
    """What is moved: height, weight and where its centre of mass lies, over a foot at that height of the stack."""
    sentence = (
        mark("{height} high, centre of mass at x {x}, y {y}, {up} up, in {unit}")
        if burden.mass is None
        else mark("{height} high, {mass}, centre of mass at x {x}, y {y}, {up} up, in {unit}")
    )
    x, y, up = (place_number(v, units) for v in (*burden.middle[:2], burden.middle[2] - foot))
    mass = "" if burden.mass is None else mass_text(burden.mass, units)
    height = length_text(burden.height, units)
    return say(sentence, height=height, mass=mass, x=x, y=y, up=up, unit=unit_words(units))


def place_number(length: float, units: Units) -> str:
    """A place of a pad, or of what is lifted, without its unit, as finely as it is met at the bench: to 1 mm, or to
    1/16 in."""
    written = {"mm": number(float(round(length)), Units("mm")), "in": number(length, Units("in", fraction=16))}
    return _each(units, written[units.first], written.get(units.second, ""))


def clamps_text(set_up: SetUp) -> str:
    """The presses it takes, by name: “8 bar clamp 1200”."""
    names = [place.press for place in set_up.places]
    return ", ".join(f"{names.count(name)} {name}" for name in dict.fromkeys(names))


def weakest(pressures: Sequence[LinePressure]) -> LinePressure | None:
    """The line of which the least is reached."""
    return min(pressures, key=lambda p: (p.reached, p.mean), default=None)


def set_up_facts(set_up: SetUp, glue_up: GlueUpPlan, foot: float, units: Units) -> tuple[str, ...]:
    """What its heading says, most needed first. foot: height in the stack of the lowest that is moved, mm."""
    clock = set_up.clock
    first = (
        mark("Round {round}. {parts}. Glue: {glue}, {amount} for {area}, loss counted in.")
        if set_up.kind == EDGES
        else mark("Round {round}. From the bottom: {parts}. Glue: {glue}, {amount} for {area}, loss counted in.")
    )
    facts = [
        say(
            first,
            round=set_up.round,
            parts=parts_text(set_up),
            glue=shown(glue_up.glue_name),
            amount=grams_text(set_up.glue, units),
            area=area_text(set_up.area, units),
        ),
        say(
            "Open time {open}, here at most {contact}. Assembly time {assembly}, here {pressure} to the last clamp. In "
            "clamps {clamped}, cured after {cured}.",
            open=format_time(clock.open_limit),
            contact=format_time(clock.to_contact),
            assembly=format_time(clock.assembly_limit),
            pressure=format_time(clock.to_pressure),
            clamped=format_time(glue_up.times[2]),
            cured=format_time(glue_up.times[3]),
        ),
    ]
    clamps = clamps_text(set_up)
    jaws = [say("Clamps: {clamps}", clamps=clamps) if clamps else ""]
    if set_up.opening and set_up.places:
        jaws.append(say("open the jaws {opening}", opening=most_text(set_up.opening, units)))
    if set_up.burden:
        jaws.append(say("moved: {burden}", burden=burden_text(set_up.burden, foot, units)))
    words = "; ".join(part for part in jaws if part)
    return (*facts, f"{begun(words)}.") if words else tuple(facts)


def faces_text(glue_up: GlueUpPlan) -> str:
    """Which faces of a line get glue, as a caption."""
    if glue_up.faces == 2:
        return say("Glue on both faces")
    return say("Glue on the upper face of what lies below")
