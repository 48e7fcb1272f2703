# SPDX-License-Identifier: LGPL-2.1-or-later

"""What of the deep check is drawn on the form: the place, the load, the coloured map, and the words of the legend."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap, WeakSpot
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.quantities import format_force
from freecad_stacklam.workbench.scene.ramp import Bands, bands_for

#: What can be shown: nothing, the worst place with its load, where a load hurts it, the greatest use everywhere.
NOTHING, PLACE, HURTS, USE = "nothing", "place", "hurts", "use"
#: N of the loads that the map of where it hurts is of.
_EACH = 100.0


@dataclass(frozen=True)
class Picture:
    """`spot`: what the ring goes round, None without one; `load`: its worst load is drawn. `map` and `bands`: what
    colours the surface, both None where nothing does; `words` of each band; `says`: the sentences of the legend."""

    spot: WeakSpot | None = None
    load: bool = False
    map: SurfaceMap | None = None
    bands: Bands | None = None
    words: tuple[str, ...] = ()
    says: tuple[str, ...] = ()


def choices_of(findings: DeepFindings | None) -> tuple[str, ...]:
    """What there is to show; () without a deep check."""
    if findings is None or findings.worst is None:
        return ()
    maps = ((HURTS, findings.influence), (USE, findings.surface))
    return (NOTHING, PLACE, *(name for name, one in maps if one is not None and one.points))


def picture_of(findings: DeepFindings, choice: str, bare: bool = False, units: str = "mm") -> Picture:
    """What is drawn for a choice. bare: the worst place with the mortises empty, where that was looked for."""
    if choice == PLACE:
        spot = findings.without_tenon if bare and findings.without_tenon is not None else findings.worst
        return Picture() if spot is None else Picture(spot, True, says=(_of_spot(spot, units), _of_load(spot, units)))
    if choice == HURTS and findings.influence is not None and findings.spots:
        spot, drawn = findings.spots[0], findings.influence
        bands = bands_for(max(drawn.values, default=0.0))
        least, *others = bands.words()
        least = f"less than {least.split(' to ')[1]}"
        says = (
            f"By how much {format_force(_EACH, units)} straight down, on a face that looks up, bring the ringed place "
            "nearer to breaking.",
            _of_spot(spot, units),
        )
        return Picture(spot, False, drawn, bands, (least, *others), says)
    if choice == USE and findings.surface is not None:
        bands = bands_for(max(findings.surface.values, default=0.0))
        loads = "the load" if findings.solved == 1 else "the loads"
        told = f"The greatest use of each place under {loads} that were solved: stress over mean strength."
        worst = findings.spots[0] if findings.spots else None
        return Picture(worst, False, findings.surface, bands, bands.words(), (told,))
    return Picture()


def _of_spot(spot: WeakSpot, units: str) -> str:
    where = f"the tenon of “{spot.tenon}”" if spot.tenon else f"layer {spot.layer} of {spot.stack}"
    return (
        f"Ring: {where} at ({format_place(spot.place, units)}), {100 * spot.index:.0f} % of the mean strength "
        f"({spot.kind})."
    )


def _of_load(spot: WeakSpot, units: str) -> str:
    at = format_place(spot.load_place, units)
    return f"Arrow: “{spot.load}”, {format_force(hypot(*spot.force), units)} at ({at})."
