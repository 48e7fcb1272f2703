# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said wherever a wood is not known well enough: the same words in every check."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.words import mark, say_many

#: What the deep check of it is called in such a sentence.
WHOLE_PIECE = mark("The strength of the whole piece")
#: And its year in the room.
MOVEMENT = mark("How the piece moves over the year")


def not_judged(what: str, species: str | Sequence[str], lacks: str = "") -> str:
    """A sentence on `what` ("The strength of Foot") that cannot be found of one or several woods. lacks: what the table
    does not have of them ("shear strength"); "": they are not in it at all."""
    names = [species] if isinstance(species, str) else list(species)
    wood = listed([shown(name) for name in names])
    if lacks:
        return say_many(
            "{what} is not judged: {wood} has no {lacks} in the table of woods; give the wood its own figures, or "
            "choose one of the table.",
            "{what} is not judged: {wood} have no {lacks} in the table of woods; give the wood its own figures, or "
            "choose one of the table.",
            len(names),
            what=what,
            wood=wood,
            lacks=lacks,
        )
    return say_many(
        "{what} is not judged: {wood} is not in the table of woods; give the wood its own figures, or choose one of "
        "the table.",
        "{what} is not judged: {wood} are not in the table of woods; give the wood its own figures, or choose one of "
        "the table.",
        len(names),
        what=what,
        wood=wood,
    )
