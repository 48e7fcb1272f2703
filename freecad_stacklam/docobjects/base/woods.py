# SPDX-License-Identifier: LGPL-2.1-or-later

"""The woods of a document: the bundled table, and what its job says of others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from typing import Any

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.lamination.options.recordlines import record_from
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.ownspecies import OwnSpecies, woods_with
from freecad_stacklam.lamination.wood.species import Species

#: The wood of a tenon for which none was chosen.
AS_STACK = "as the first stack"


def own_woods_in(document: Document) -> tuple[OwnSpecies, ...]:
    """The maker's own woods. Raises Refusal for a line that is none."""
    job = job_in(document)
    return () if job is None else _own(tuple(line for line in job.Woods if line.strip()))


def woods_in(document: Document) -> dict[str, Species]:
    """The table of all woods, by name; one and the same for as long as the maker's own do not change. Raises
    Refusal."""
    return woods_of(own_woods_in(document))


def wood_names_in(document: Document) -> list[str]:
    """What a maker may choose from; where a line is no wood, of the bundled table alone: the job's error says why."""
    try:
        return sorted(woods_in(document))
    except Refusal:
        return sorted(species_table())


@lru_cache(maxsize=16)
def _own(lines: tuple[str, ...]) -> tuple[OwnSpecies, ...]:
    return tuple(record_from(line, OwnSpecies) for line in lines)


@lru_cache(maxsize=16)
def woods_of(own: tuple[OwnSpecies, ...]) -> dict[str, Species]:
    """The bundled table with these woods."""
    return woods_with(species_table(), own).table if own else species_table()


def with_woods(properties: Iterable[Property]) -> tuple[Property, ...]:
    """The same properties, the wood among them one that is chosen from a list."""
    return tuple(
        replace(p, kind="Enumeration", first=[p.first or AS_STACK]) if p.name == "Species" else p for p in properties
    )


def offer_woods(obj: Any) -> None:
    """Let the wood of a stack or a tenon be chosen from the table and the document's own woods. What it holds stays, be
    it in either or not."""
    held, there = obj.Species, list(obj.getEnumerationsOfProperty("Species") or ())
    wanted = [*([AS_STACK] if AS_STACK in there else []), *wood_names_in(obj.Document)]
    if held not in wanted:
        wanted.append(held)
    if there != wanted:
        obj.Species = wanted
        obj.Species = held
