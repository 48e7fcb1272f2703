# SPDX-License-Identifier: LGPL-2.1-or-later

"""What must be so before glue is opened: warmth, moisture of air and wood, fresh faces, iron kept off; and the water
that the glue itself brings.

Most limits are common practice without a source; the others name theirs in their sentence.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.gluing import Condition
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.quantities import format_temperature, format_time
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import Glue, waits_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.wood.moisture import days_to_wait, equilibrium_moisture, water_added
from freecad_stacklam.lamination.wood.species import WATER, Species, find_species, gravity
from freecad_stacklam.lamination.words import mark, say, say_many

GO, WAIT, NO = "go", "wait", "no"
#: Points of moisture that layers may lie apart from each other and from the room (common practice, no source), and the
#: most that layers of one laminated member may (Wood Handbook, FPL-GTR-282 (2021), Ch. 13).
APART, MOST_APART = 2.0, 5.0
#: Moisture of wood for furniture indoors, % (FPL-GTR-282 (2021), Table 13-2).
INDOORS = (6.0, 10.0)
#: Seconds after planing within which faces are glued (common practice, no source).
FRESH = 86_400.0
#: Woods with tannin, which bare iron and wet glue stain black, by words of their names (common practice, no source).
TANNIN = ("oak", "chestnut", "walnut", "cherry")
_PRACTICE = mark("common practice, no source")
#: Names of conditions, said where they are shown.
TEMPERATURE, ROOM, PLANED, IRON = mark("temperature"), mark("moisture of the room"), mark("planed"), mark("iron")


def conditions_of(
    stacks: Sequence[StackPlan],
    boards: BoardsPlan | None,
    glue: Glue,
    room: GluingRoom,
    units: str = "mm",
) -> tuple[Condition, ...]:
    """Everything to see to before the first glue is spread, in the order in which it is seen to. units: "mm" or "in",
    for temperatures."""
    air = _kept_at(room)
    found = [_warmth(glue, room, units), _air(room, air, units)]
    for stack in stacks:
        found += _wood(stack, layer_moisture(boards), air)
    return (*found, _planed(room), *_iron(stacks, glue))


def layer_moisture(boards: BoardsPlan | None) -> dict[tuple[str, int], tuple[float, ...]]:
    """Stack and layer → what was measured on the boards that it is cut from, %; none where no board of it was."""
    found: dict[tuple[str, int], list[float]] = {}
    if boards is None:
        return {}
    staves = {s.id: s for s in boards.staves}
    for board in boards.plan:
        for piece in board.pieces:
            if board.moisture is not None and piece.stave in staves:
                stave = staves[piece.stave]
                found.setdefault((stave.stack, stave.layer), []).append(board.moisture)
    return {key: tuple(values) for key, values in found.items()}


def water_of(
    stacks: Sequence[StackPlan], glue: Glue, room: GluingRoom, table: Mapping[str, Species]
) -> tuple[tuple[str, int, float, float], ...]:
    """Stack, layer, points of moisture that the glue adds to it, and days until its lines are carved or planed.

    A line gives half of its water to either layer, so one inside a stack gets as much as one line holds and the two
    outermost half of it. Layers whose wood has no known density, and stacks of one layer, have no row.
    """
    found = []
    for stack in stacks:
        last = len(stack.layers) - 1
        for i, layer in enumerate(stack.layers):
            dry = _dry_density(table, layer.species)
            if last == 0 or dry is None:
                continue
            sides = (i > 0) + (i < last)
            points = sides / 2 * water_added(glue.spread * glue.faces, glue.water, dry, layer.thickness)
            found.append((stack.name, layer.number, points, days_to_wait(points, waits_of(glue, room.temperature)[1])))
    return tuple(found)


def waiting_of(water: Sequence[tuple[str, int, float, float]]) -> tuple[float, str] | None:
    """Days from gluing until its lines are carved, and the sentence that says so; of rows as `water_of` makes them.
    None without any."""
    if not water:
        return None
    stack, layer, points, _ = max(water, key=lambda row: row[2])
    days = max(row[3] for row in water)
    if points <= 0:
        return days, say(
            "The glue adds no water: its lines may be carved once it has cured, after {days:.3g} days.", days=days
        )
    return days, say(
        "The glue adds up to {points:.2f} points of moisture, most in layer {layer} of {stack}: wait "
        "{days:.3g} days from gluing before its lines are planed or carved flush, or they sink later.",
        points=points,
        layer=layer,
        stack=stack,
        days=days,
    )


def _dry_density(table: Mapping[str, Species], species: str) -> float | None:
    """Oven-dry mass over volume at 12 %, kg/m³."""
    try:
        return gravity(find_species(table, species)) * WATER
    except Refusal:
        return None


def _kept_at(room: GluingRoom) -> float | None:
    """What the room's air keeps wood at, %; None where that is not known."""
    if room.humidity is None:
        return None
    try:
        return equilibrium_moisture(room.temperature, room.humidity)
    except Refusal:
        return None


# --- one by one -----------------------------------------------------------------------------------------------------


def _warmth(glue: Glue, room: GluingRoom, units: str) -> Condition:
    cold = room.temperature < glue.least_temperature
    least = format_temperature(glue.least_temperature, units)
    parts = {"temperature": format_temperature(room.temperature, units), "glue": shown(glue.name), "least": least}
    says = (
        say(
            "The room has {temperature}; {glue} wants {least} at least: warm the room, the wood and the glue "
            "first, the wood through and through; what stands on the glue wins.",
            **parts,
        )
        if cold
        else say(
            "The room has {temperature}; {glue} wants {least} at least, and so do the wood and the pot: cold wood from "
            "a shed chills the line.",
            **parts,
        )
    )
    return Condition(TEMPERATURE, NO if cold else GO, room.temperature, glue.least_temperature, "°C", says)


def _air(room: GluingRoom, air: float | None, units: str) -> Condition:
    if air is None:
        says = (
            say(
                "The room's humidity is not given, so what its air keeps wood at is not known: read a hygrometer "
                "beside the wood and set it."
            )
            if room.humidity is None
            else say(
                "What air of {temperature} keeps wood at is not known: warm the room.",
                temperature=format_temperature(room.temperature, units),
            )
        )
        return Condition(ROOM, WAIT, None, None, "%", says)
    low, high = INDOORS
    usual = low <= air <= high
    sentence = (
        mark(
            "Air of {temperature} and {humidity:g} % keeps wood at {air:.1f} % (FPL-GTR-282, Eq. 4-5); furniture for "
            "indoors wants {low:g} to {high:g} % (Table 13-2)."
        )
        if usual
        else mark(
            "Air of {temperature} and {humidity:g} % keeps wood at {air:.1f} % (FPL-GTR-282, Eq. 4-5); furniture for "
            "indoors wants {low:g} to {high:g} % (Table 13-2): dry the air first, or glue for where the piece will be."
        )
        if air > high
        else mark(
            "Air of {temperature} and {humidity:g} % keeps wood at {air:.1f} % (FPL-GTR-282, Eq. 4-5); furniture for "
            "indoors wants {low:g} to {high:g} % (Table 13-2): moisten the air first, or glue for where the piece will "
            "be."
        )
    )
    temperature = format_temperature(room.temperature, units)
    says = say(sentence, temperature=temperature, humidity=room.humidity, air=air, low=low, high=high)
    return Condition(ROOM, GO if usual else WAIT, air, low if air < low else high, "%", says)


#: How far a layer is from the room: by whether it is damper, and whether too far.
_OFF = {
    (True, True): mark(
        "Layer {layer} of {stack} has {value:g} %, {off:.1f} points over what the room keeps wood at ({air:.1f} "
        "%), more than {usual:g} ({practice}): wait until it has come to the room, stickered, ends covered."
    ),
    (False, True): mark(
        "Layer {layer} of {stack} has {value:g} %, {off:.1f} points under what the room keeps wood at ({air:.1f} "
        "%), more than {usual:g} ({practice}): wait until it has come to the room, stickered, ends covered."
    ),
    (True, False): mark(
        "Layer {layer} of {stack} has {value:g} %, {off:.1f} points over what the room keeps wood at ({air:.1f} %); no "
        "layer is further off."
    ),
    (False, False): mark(
        "Layer {layer} of {stack} has {value:g} %, {off:.1f} points under what the room keeps wood at ({air:.1f} "
        "%); no layer is further off."
    ),
}


def _wood(
    stack: StackPlan, measured: Mapping[tuple[str, int], tuple[float, ...]], air: float | None
) -> list[Condition]:
    """Layers beside each other, and beside the room."""
    known = [(value, layer.number) for layer in stack.layers for value in measured.get((stack.name, layer.number), ())]
    missing = [layer.number for layer in stack.layers if (stack.name, layer.number) not in measured]
    name = say("{stack}: moisture of its layers", stack=stack.name)
    if not known:
        says = say(
            "Nobody measured the boards of {stack}: measure each with a meter and write it into the rack; "
            "its layers may lie {apart:g} points apart ({practice}).",
            stack=stack.name,
            apart=APART,
            practice=say(_PRACTICE),
        )
        return [Condition(name, WAIT, None, APART, "points", says)]
    (least, driest), (most, dampest) = min(known), max(known)
    apart = most - least
    verdict = NO if apart > MOST_APART else WAIT if apart > APART or missing else GO
    says = say(
        mark(
            "The layers of {stack} lie {apart:.1f} points apart: layer {driest} has {least:g} %, layer {dampest} "
            "{most:g} %; up to {usual:g} are usual ({practice}), {limit:g} the most (FPL-GTR-282, Ch. 13)."
        )
        if apart > 0
        else mark(
            "The layers of {stack} lie {apart:.1f} points apart; up to {usual:g} are usual ({practice}), {limit:g} the "
            "most (FPL-GTR-282, Ch. 13)."
        ),
        stack=stack.name,
        apart=apart,
        driest=driest,
        least=least,
        dampest=dampest,
        most=most,
        usual=APART,
        practice=say(_PRACTICE),
        limit=MOST_APART,
    )
    if apart > APART:
        says += " " + say(
            "Stand the layers apart in the room until a meter shows the same in all, or choose other boards."
        )
    if missing:
        says += " " + say_many(
            "Not measured: layer {layers}.",
            "Not measured: layers {layers}.",
            len(missing),
            layers=", ".join(map(str, missing)),
        )
    found = [Condition(name, verdict, apart, APART, "points", says)]
    if air is not None:
        off, value, number = max((abs(v - air), v, n) for v, n in known)
        far = off > APART
        says = say(
            _OFF[value > air, far],
            layer=number,
            stack=stack.name,
            value=value,
            off=off,
            air=air,
            usual=APART,
            practice=say(_PRACTICE),
        )
        found.append(
            Condition(
                say("{stack}: layers and room", stack=stack.name), WAIT if far else GO, off, APART, "points", says
            )
        )
    return found


def _planed(room: GluingRoom) -> Condition:
    parts = {"fresh": format_time(FRESH), "practice": say(_PRACTICE)}
    if room.planed is None:
        says = say(
            "When the faces were planed is not given: faces are glued within {fresh} of planing ({practice}); take a "
            "light cut off older ones.",
            **parts,
        )
        return Condition(PLANED, WAIT, None, FRESH, "s", says)
    old = room.planed > FRESH
    ago = format_time(room.planed)
    says = (
        say(
            "The faces were planed {ago} ago; faces are glued within {fresh} of planing ({practice}): take a light cut "
            "off both, and wipe off the dust.",
            ago=ago,
            **parts,
        )
        if old
        else say(
            "The faces were planed {ago} ago; faces are glued within {fresh} of planing ({practice}).", ago=ago, **parts
        )
    )
    return Condition(PLANED, WAIT if old else GO, room.planed, FRESH, "s", says)


def _iron(stacks: Sequence[StackPlan], glue: Glue) -> list[Condition]:
    """Wet glue carries iron into tannin; nothing where neither the wood nor the glue minds iron."""
    woods = sorted({x.species for s in stacks for x in s.layers if any(w in x.species.lower() for w in TANNIN)})
    if not woods and not glue.reacts_with_iron:
        return []
    blackened = [", ".join(map(shown, woods))] if woods else []
    blackened += [shown(glue.name)] if glue.reacts_with_iron else []
    says = say(
        "Bare iron blackens {what} where glue is wet: lay waxed paper or a caul between the wood and "
        "every bar, pad, pipe and rod ({practice}).",
        what=listed(blackened),
        practice=say(_PRACTICE),
    )
    return [Condition(IRON, GO, None, None, "", says)]
