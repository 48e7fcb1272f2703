# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said, and refused, where a package cannot be used."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say, say_many
from freecad_stacklam.packages.looking import Fault, faults
from freecad_stacklam.packages.needs import DXF, PLANNING, Need

#: How the README's part on packages is found.
_SEE = mark("the README's “Install in FreeCAD” has the line")


class PackagesMissing(Refusal):
    """A refusal that installing packages may mend: those that `needs` names. `done` is a sentence of what was done all
    the same."""

    def __init__(self, sentence: str, needs: tuple[Need, ...], done: str = "") -> None:
        super().__init__(f"{done} {sentence}".lstrip())
        self.needs = needs
        self.done = done


def installable(found: Sequence[Fault]) -> tuple[Need, ...]:
    """The packages that an install would mend."""
    return tuple(fault.need for fault in found if not fault.need.is_freecads)


def said_of(found: Sequence[Fault]) -> str:
    """What is the matter with these, as the middle of a sentence."""
    told = "; ".join(fault.told() for fault in found)
    own = say(" and ").join(fault.need.package for fault in found if fault.need.is_freecads)
    return (
        say("{told}; {own} belongs to FreeCAD itself, so a newer FreeCAD is what helps", told=told, own=own)
        if own
        else told
    )


def sentence_for(found: Sequence[Fault], folder: Path) -> str:
    """One sentence for the window: which packages, what is the matter, and where they go."""
    parts = {"packages": _counted(found), "why": said_of(found)}
    if not installable(found):
        return say("StackLam lacks {packages}: {why}.", **parts)
    return say("StackLam lacks {packages}: {why}; what is missing goes into {folder}.", folder=folder, **parts)


def _counted(found: Sequence[Fault]) -> str:
    return say_many("a Python package", "{count} Python packages", len(found))


def require(needs: tuple[Need, ...], otherwise: str, besides: str = "") -> None:
    """Raise PackagesMissing where one of these packages cannot be used.

    otherwise: how the sentence begins, such as "Nothing can be planned"; besides: what it ends with.
    """
    found = faults(needs)
    if found:
        raise PackagesMissing(f"{otherwise}: {said_of(found)}; {say(_SEE)}{besides}.", needs)


def need_planning() -> None:
    """Refuse to plan where numpy or shapely cannot be used."""
    require(PLANNING, say("Nothing can be planned"))


def need_dxf() -> None:
    """Refuse to write DXF where ezdxf, or what it needs itself, cannot be used."""
    require(DXF, say("DXF cannot be written"), say(", and PDF and SVG need none of it"))
