# SPDX-License-Identifier: LGPL-2.1-or-later

"""The words of the bench page and of its script, said where they are used."""

from __future__ import annotations

import json
from html import escape

from freecad_stacklam.lamination.words import mark, say

LOCKED = mark(
    "The alarm cannot ring while the phone is locked or the page is closed. The clocks go on all the same and are "
    "right as soon as you look; set a kitchen timer besides."
)
#: What the script says; it stands there between quotation marks.
_SCRIPT = (
    mark("no line is wet"),
    mark("OVER: {line} must touch"),
    mark("{line} must touch"),
    mark("starts with the first glue"),
    mark("tight, TOO LATE"),
    mark("tight in time"),
    mark("OVER: press at once"),
    mark("to the last clamp"),
    mark("Clamps stay on until {at}, {left} left."),
    mark("Clamps may come off since {at}."),
    mark("Set-up {number}"),
    mark("open time"),
    mark("assembly time"),
    mark("Sound and vibration: off"),
    mark("Sound and vibration: tap to wake"),
    mark("Sound and vibration: on"),
    mark("The screen is kept on."),
    mark("This browser does not keep the screen on: set the display so that it stays on."),
    mark("Set the clock of set-up {number} back to its start?"),
    mark("Forget all ticks and clocks of this plan?"),
)


def in_the_language(script: str) -> str:
    """The script with its words in the language that is spoken; its places are filled by itself."""
    places = {name: f"{{{name}}}" for name in ("line", "at", "left", "number")}
    for words in _SCRIPT:
        said = json.dumps(say(words, **places), ensure_ascii=False).replace("</", "<\\/")
        script = script.replace(f'"{words}"', said)
    return script


#: What stands on the page, said where it is used.
FIRST = mark("Plan {plan}. What stands on your own can, and your machines' manuals, come first.")
NO_SCRIPTS = mark("Scripts do not run here, so there are no clocks and nothing is kept: open the file in a browser.")
UNKEPT = mark("This browser keeps nothing: ticks and clocks are lost when the page is closed. Note the start on paper.")
SOUND_OFF, LAYERS = mark("Sound and vibration: off"), mark("Layer sheets")
BEFORE, ANEW = mark("Before the first glue"), mark("Begin anew")
FORGET, BROKEN = mark("Forget all ticks and clocks of this plan"), mark("A limit is broken")
FROM_TO, SPREAD, LIES = mark("{start} to {end}"), mark("Spread"), mark("It lies")
ASSEMBLY, OPEN = mark("Assembly time left"), mark("Open time left")
SET_BACK = mark("The clock of this device was set back: do not trust these times.")
TAP = mark(
    "Tap when the spreader touches the wood, and when the face lies on it. The times under a line are the plan's, from "
    "the first glue."
)
TIGHT, UNDO, AGAIN = mark("All clamps are tight"), mark("Undo"), mark("Start anew")
REACHED = mark("Pressure reached")
LARGER = mark("Tap a sheet to see it larger, and again to see it whole.")
NO_SHEETS = mark("No layer sheets were made with this page.")


def quoted(sentence: str, **parts: str) -> str:
    """A sentence in the language that is spoken, as it stands in HTML."""
    return escape(say(sentence, **parts), quote=False)
