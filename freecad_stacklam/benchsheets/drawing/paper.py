# SPDX-License-Identifier: LGPL-2.1-or-later

"""The paper a sheet is drawn for, ISO 216 and ANSI/ASME Y14.1 sizes and rolls, and the scales. All sizes mm."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from math import isfinite

from freecad_stacklam.lamination.lengths import INCH, parse_length, plain_bit, size
from freecad_stacklam.lamination.refusal import Refusal, either
from freecad_stacklam.lamination.words import mark, say

#: Scales for reduced drawings, after ISO 5455; 1:1 where it fits.
SCALES = (1, 2, 5, 10, 20, 50, 100, 200)
#: Border that common printers leave blank. A sheet draws nothing in it.
MARGIN = 10.0
#: Longest piece of a roll on one page: a PDF page ends at 200 in.
LONGEST_ROLL = 5000.0
#: The check scales and the title strip need this much between the margins.
LEAST_WIDTH, LEAST_HEIGHT = 180.0, 180.0

#: ISO 216, trimmed sizes, portrait.
ISO_216 = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "A2": (420.0, 594.0),
    "A1": (594.0, 841.0),
    "A0": (841.0, 1189.0),
}
#: ANSI/ASME Y14.1, portrait. Letter is its size A, tabloid its size B.
ANSI_Y14_1 = {
    "Letter": (8.5 * INCH, 11 * INCH),
    "B": (11 * INCH, 17 * INCH),
    "C": (17 * INCH, 22 * INCH),
    "D": (22 * INCH, 34 * INCH),
    "E": (34 * INCH, 44 * INCH),
}
_SIZES = {**ISO_216, **ANSI_Y14_1}
_OTHER_NAMES = {"a": "Letter", "us letter": "Letter", "tabloid": "B", "us tabloid": "B"}
KNOWN = mark("A4, A3, A2, A1, A0, Letter, B (tabloid), C, D, E, or a roll such as “roll 610mm” or “roll 24in”")


@dataclass(frozen=True)
class Paper:
    """A page before anything is drawn on it.

    `width` × `height` mm as it lies; `margin` mm that the printer cannot reach, on all sides. `turnable`: portrait
    or landscape may be chosen. On a roll `width` is the roll's and `height` the longest page that may be cut from it.
    """

    name: str
    width: float
    height: float
    margin: float = MARGIN
    turnable: bool = True
    roll: bool = False

    def __post_init__(self) -> None:
        if not (isfinite(self.margin) and self.margin > 0):
            raise Refusal(
                say(
                    "The printable margin of {paper} must be more than nothing: {margin} suits most printers.",
                    paper=self.name,
                    margin=either("10 mm", "3/8 in"),
                )
            )
        across, along = sorted((self.width, self.height))
        if across - 2 * self.margin < LEAST_WIDTH or along - 2 * self.margin < LEAST_HEIGHT:
            raise Refusal(
                say(
                    "{paper} leaves {left} between its margins and the check scales and title strip need "
                    "{room}: take A4, Letter or larger, or a smaller margin.",
                    paper=self.name,
                    left=size(max(0.0, across - 2 * self.margin)),
                    room=size(LEAST_WIDTH),
                )
            )

    @property
    def landscape(self) -> bool:
        """True when the page lies wider than high."""
        return self.width > self.height

    def turned(self) -> Paper:
        """The same page, portrait for landscape. A roll stays as it is."""
        return self if self.roll else replace(self, width=self.height, height=self.width)

    def portrait(self) -> Paper:
        """The page standing."""
        return self.turned() if self.landscape else self

    def with_margin(self, margin: float) -> Paper:
        """The same page with another printable margin, mm."""
        return replace(self, margin=margin)


def _roll(text: str) -> Paper:
    try:
        width = parse_length(text.removeprefix("roll"), "mm")
    except Refusal:
        raise Refusal(
            say(
                "The roll “{text}” was not understood: write its width, for instance “roll 610mm” or “roll 24in”.",
                text=text,
            )
        ) from None
    if width > LONGEST_ROLL:
        raise Refusal(
            say(
                "A roll {width} wide cannot be printed: give the width of the roll in your plotter, such as {example}.",
                width=size(width),
                example=either("610 mm", "24 in"),
            )
        )
    return Paper(f"roll {plain_bit(width)}", width, LONGEST_ROLL, turnable=False, roll=True)


def paper_named(text: str, margin: float = MARGIN) -> Paper:
    """The paper called `text`: “A4”, “letter”, “A3 landscape”, “ANSI D”, “roll 610mm”.

    Without “portrait” or “landscape” the tiling may turn the page. Raises Refusal with all known names.
    """
    words = " ".join(str(text).strip().lower().split())
    if words.startswith("roll"):
        return _roll(words).with_margin(margin)
    lying = re.search(r"\b(portrait|landscape)$", words)
    name = words[: lying.start()].strip() if lying else words
    name = re.sub(r"^(ansi|us)\s+", "", name)
    by_name = {known.lower(): known for known in _SIZES} | _OTHER_NAMES
    if name not in by_name:
        raise Refusal(say("No paper is called “{text}”: choose {known}.", text=text, known=say(KNOWN)))
    width, height = _SIZES[by_name[name]]
    paper = Paper(by_name[name], width, height, margin, turnable=lying is None)
    return paper.turned() if lying and lying[1] == "landscape" else paper
