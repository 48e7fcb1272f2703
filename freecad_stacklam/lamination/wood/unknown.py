# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said wherever a wood is not known well enough: the same words in every check."""

from __future__ import annotations

from collections.abc import Sequence

#: What the deep check of it is called in such a sentence.
WHOLE_PIECE = "The strength of the whole piece"
#: And its year in the room.
MOVEMENT = "How the piece moves over the year"
NOT_THERE = "not in the table of woods"
_CURE = "give the wood its own figures, or choose one of the table."


def not_judged(what: str, species: str | Sequence[str], lacks: str = "") -> str:
    """A sentence on `what` ("The strength of Foot") that cannot be found of one or several woods. lacks: what the table
    does not have of them ("shear strength"); "": they are not in it at all."""
    names = [species] if isinstance(species, str) else list(species)
    several = len(names) > 1
    wood = " and ".join([", ".join(names[:-1]), names[-1]] if several else names)
    verb = ("have" if several else "has") if lacks else ("are" if several else "is")
    said = f"no {lacks} in the table of woods" if lacks else NOT_THERE
    return f"{what} is not judged: {wood} {verb} {said}; {_CURE}"
