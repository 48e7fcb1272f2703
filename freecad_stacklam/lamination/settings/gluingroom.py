# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where and by how many hands it is glued, and how long each move takes there."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.options import quantities
from freecad_stacklam.lamination.options.kinds import SIZE, length, number
from freecad_stacklam.lamination.options.quantities import duration, mass, percent
from freecad_stacklam.lamination.options.rows import Record, option

_TIMED = "time one dry run and set it"


@dataclass(frozen=True)
class GluingRoom(Record):
    """The room, the hands and the moves. Times s, masses kg, lengths mm.

    The first values of the times are no more than a start (common practice, no source): a maker times one line dry."""

    temperature: float = option(
        20.0, quantities.temperature(-20.0, 60.0), "Temperature", "Of the room while glue is open", group="Room"
    )
    humidity: float | None = option(
        None, percent(1.0, 99.0), "Humidity", "Relative humidity of the room; left out: nothing is said about moisture",
        group="Room",
    )  # fmt: skip
    helpers: int = option(0, number(0, 9, whole=True), "Helpers", "Hands beside your own", group="Room")
    lift: float | None = option(
        None, mass(1.0, 500.0), "One lifts", "Most that one person lifts and turns here; left out: 23 kg at 25 cm from "
        "the body, less farther out", group="Room",
    )  # fmt: skip
    start: float = option(
        10.0,
        duration(0.0, 600.0),
        "To begin a line",
        f"Seconds before the first glue is on a face: {_TIMED}",
        group="Moves",
        property="ToBeginLine",
    )
    spread: float = option(
        400.0,
        number(1.0, 10_000.0),
        "Seconds to spread 1 m²",
        f"Seconds for a square metre of one face: {_TIMED}",
        group="Moves",
        property="ToSpread",
    )
    place: float = option(
        30.0,
        duration(0.0, 3600.0),
        "To lay a layer",
        f"Seconds to lay it on its marks: {_TIMED}",
        group="Moves",
        property="ToLayLayer",
    )
    pin: float = option(
        15.0,
        duration(0.0, 600.0),
        "To set a pin",
        f"Seconds for one dowel: {_TIMED}",
        group="Moves",
        property="ToSetPin",
    )
    clamp: float = option(
        20.0,
        duration(1.0, 600.0),
        "To set a clamp",
        f"Seconds for one, tightened: {_TIMED}",
        group="Moves",
        property="ToSetClamp",
    )
    caul: float = option(
        20.0, duration(0.0, 600.0), "To lay a caul", f"Seconds for one: {_TIMED}", group="Moves", property="ToLayCaul"
    )
    caul_thickness: float = option(
        36.0, length(0.0, 200.0), "Cauls, thick", "Thickness of the boards between pads and wood; 0: none are used",
        group="Cauls",
    )  # fmt: skip
    reface: float | None = option(
        None, SIZE, "Refaced up to",
        "Widest sub-stack whose glued faces can be planed flat again, by planer or sled; left out: none is",
        group="Cauls",
    )  # fmt: skip
    planed: float | None = option(
        None, duration(0.0), "Planed ago", "How long ago the layers were planed; left out: nothing is said about it",
        group="Room",
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return "the room"
