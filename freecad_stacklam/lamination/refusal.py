# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one way the computation says no, and how its sentence follows the maker's units.

A record that refuses a value knows no units, whoever tells the refusal does. So a length stands in the sentence in both
(`lengths.size` writes it), and `told` keeps the one that is asked for. Sentences that are made of others are made of
their `sentence`, not of their text, so that both are kept.
"""

from __future__ import annotations

import re

from freecad_stacklam.lamination.words import say

#: Signs of the private use area, which no name and no sentence holds: before, between and after the two texts.
_OPEN, _BETWEEN, _CLOSE = "\ue000", "\ue001", "\ue002"
#: What breaks a line or moves the pen of a terminal.
_BREAKS = re.compile(r"[\s\x00-\x1f\x7f-\x9f]+")
#: Longest word, and longest text between quotation marks, that a sentence repeats; of a longer one it shows the start.
LONGEST_WORD, LONGEST_QUOTE = 120, 200
_TOO_LONG = re.compile(rf"(“[^”]{{{LONGEST_QUOTE}}})[^”]+(?=”)|(\S{{{LONGEST_WORD}}})\S+")
_EITHER = re.compile(f"{_OPEN}([^{_CLOSE}]*){_BETWEEN}([^{_CLOSE}]*){_CLOSE}")


def either(mm: str, inches: str) -> str:
    """A figure for a sentence that is told in millimetres or in inches."""
    return mm if mm == inches else f"{_OPEN}{mm}{_BETWEEN}{inches}{_CLOSE}"


def told(sentence: str, units: str = "mm") -> str:
    """A sentence in the units of whom it is told, "mm" or "in"."""
    return _EITHER.sub(r"\2" if units == "in" else r"\1", sentence)


def one_line(sentence: str) -> str:
    """The sentence on one line, with what it repeats of a file cut to a length that can be read."""
    return _TOO_LONG.sub(r"\1\2…", _BREAKS.sub(" ", sentence))


class Refusal(ValueError):
    """Input that cannot be planned. The text is one sentence a maker understands and says what to do, on one line
    whatever it repeats; as a plain string it is in mm."""

    def __init__(self, sentence: str = "") -> None:
        sentence = one_line(sentence)
        super().__init__(sentence)
        #: With its lengths in both units.
        self.sentence = sentence

    def __str__(self) -> str:
        return told(self.sentence)

    def told(self, units: str) -> str:
        """The sentence in the units of the maker, "mm" or "in"."""
        return told(self.sentence, units)


class Defect(Refusal):
    """What the program made and its own check refused. No setting of the maker's is to blame, and none is advised."""

    def __init__(self, what: str) -> None:
        """what: the thing that failed, and in brackets how."""
        super().__init__(
            say(
                "{what} failed the program's own check: this is a defect of the program and not of "
                "your settings; please report it with the form and its settings.",
                what=what,
            )
        )
