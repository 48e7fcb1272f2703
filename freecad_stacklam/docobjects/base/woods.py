# SPDX-License-Identifier: LGPL-2.1-or-later

"""The woods of a document: the bundled table, and what its job says of others."""

from __future__ import annotations

from functools import lru_cache

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.lamination.options.recordlines import record_from
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.ownspecies import OwnSpecies, woods_with
from freecad_stacklam.lamination.wood.species import Species


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
