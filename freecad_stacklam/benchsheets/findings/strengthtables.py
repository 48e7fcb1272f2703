# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strength by sections, in tables: the worst places and what they carry, the joints, the wood's figures and sources."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import in_inches, number, unit_words
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.lamination.findings.strength import SectionFinding, StrengthFindings
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, place_figures, rounded_up
from freecad_stacklam.lamination.quantities import PSI, format_force
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.words import figure, mark, say

#: Places that are listed, the worst first.
LISTED = 6
#: Overhangs and spans of one layer that are nearer to each other than this, mm, are told as one place.
NEAR = 30.0
SQUARE_CENTIMETRE = 100.0

ESTIMATE = (
    mark(
        "An estimate by sections, in means of small clear specimens, never a compliance test: sections see no peaks "
        "at edges and holes, and no knots. Use is stress over the mean that breaks half of such wood; a quarter is "
        "usual."
    ),
    mark(
        "Area: of the wood in the section. Deep: across it, the way it bends; would do: how deep it should be. In "
        "brackets: so many sections of a layer told as one, by the worst of them. Vary: one standard deviation."
    ),
    mark("No strength across the grain has a known variation, so nothing here is ever better than a caution."),
)


@dataclass(frozen=True)
class Place:
    """Sections that are one weak place to the maker, by the worst of them, and how many they are."""

    worst: SectionFinding
    count: int


def places_of(findings: StrengthFindings) -> list[Place]:
    """The worst places: necks of one layer are one, and so are other sections of a layer that are near each other."""
    found: list[list[SectionFinding]] = []
    for section in findings.sections:
        mine = next((group for group in found if _same(group[0], section)), None)
        if mine is None:
            found.append([section])
        else:
            mine.append(section)
    return [Place(group[0], len(group)) for group in found[:LISTED]]


def _same(one: SectionFinding, other: SectionFinding) -> bool:
    if (one.kind, one.stack, one.layer) != (other.kind, other.stack, other.layer):
        return False
    return one.kind == "neck" or dist(one.place, other.place) < NEAR


def stress_figure(book: Book, stress: float) -> str:
    """A stress, MPa, without its unit: in MPa, or in psi among inches."""
    return figure(f"{stress / PSI:.0f}" if in_inches(book.units) else f"{stress:.2f}")


def stress_unit(book: Book) -> str:
    """The unit of those."""
    return "psi" if in_inches(book.units) else "MPa"


def blocks(book: Book, findings: StrengthFindings, width: float) -> list[Block]:
    """All tables, and how to read them. width: of the column, mm."""
    sentences = (*map(say, ESTIMATE), *findings.notes, *(told(one.says, book.units.first) for one in findings.left_out))
    found = []
    places = places_of(findings)
    if places:
        found += [_places(book, places), _carried(book, findings, places)]
    if findings.joints:
        found.append(_joints(book, findings))
    sources = list(dict.fromkeys(figure.source for figure in findings.wood))
    if sources:
        found.append(_wood(book, findings, sources))
    numbered = [f"[{i}] {source}." for i, source in enumerate(sources, 1)]
    return [*found, notes(say("How to read it, and sources"), [*sentences, *numbered], width)]


def _places(book: Book, places: Sequence[Place]) -> Block:
    rows = []
    inches = in_inches(book.units)
    for i, place in enumerate(places, 1):
        s = place.worst
        kind = shown(s.kind) if place.count == 1 else f"{shown(s.kind)} ({place.count})"
        area = figure(f"{s.area / INCH**2:.2f}" if inches else f"{s.area / SQUARE_CENTIMETRE:.1f}")
        rows.append((
            str(i), kind, f"{s.stack} {s.layer}", number(s.height, book.units), area, number(s.width, book.units),
            stress_figure(book, s.bending + s.axial), stress_figure(book, s.shear), stress_figure(book, s.strength),
            "–" if s.cov is None else f"{s.cov:.0%}", f"{s.use:.0%}", f"{s.tenon_use:.0%}" if s.tenon_use else "–",
            number(rounded_up(s.do, book.units.first), book.units) if s.do else "–",
        ))  # fmt: skip
    heads = (
        "",
        say("kind"),
        say("layer"),
        say("height"),
        say("area {unit}", unit="in²" if inches else "cm²"),
        say("deep"),
        say("stress"),
        say("shear"),
        say("mean"),
        say("vary"),
        say("use"),
        say("tenon"),
        say("would do"),
    )
    title = say(
        "The worst places (in the model, all sizes in {unit}; stresses in {stress})",
        unit=unit_words(book.units),
        stress=stress_unit(book),
    )
    shares = (5.0, 25.0, 25.0, 15.0, 17.0, 14.0, 13.0, 12.0, 13.0, 11.0, 11.0, 12.0, 16.0)
    return Block(title, heads, shares, (True, True, True, *[False] * 10), tuple(rows))


def _carried(book: Book, findings: StrengthFindings, places: Sequence[Place]) -> Block:
    """The load beside each place; places under one load at one place share a row."""
    rows: dict[tuple[str, ...], list[str]] = {}
    first = book.units.first
    for i, place in enumerate(places, 1):
        s = place.worst
        load = findings.load_named(s.load)
        forces = ("–", "–") if load is None else (format_force(load.down, first), format_force(load.push, first))
        x, y, z = place_figures(s.load_place, first)
        rows.setdefault((shown(s.load), *forces, say("years") if s.lasting else say("minutes"), x, y, z), []).append(
            str(i)
        )
    cells = tuple((", ".join(numbers), *row) for row, numbers in rows.items())
    return Block(
        say("What they carry, and where it then stands"),
        (say("place"), say("load"), say("down"), say("push"), say("for"), say("at x"), "y", "z"),
        (26.0, 66.0, 19.0, 17.0, 17.0, 15.0, 15.0, 15.0),
        (True, True, *[False] * 6),
        cells,
    )


def _joints(book: Book, findings: StrengthFindings) -> Block:
    """Each joint, and under it the load that is worst for it."""

    def force(newtons: float) -> str:
        return format_force(newtons, book.units.first)

    def of(value: float, most: float) -> str:
        return say("{value} of {most}", value=stress_figure(book, value), most=stress_figure(book, most))

    rows: list[tuple[str, ...]] = []
    for j in findings.joints:
        glued = j.way == "glued"
        rows.append(
            (
                j.name,
                of(j.bending, j.strength),
                of(j.bearing, j.crush),
                of(j.rolling, j.rolling_strength) if glued else say("dry"),
                say("{value} of {most}", value=force(j.pull), most=force(j.holds)) if glued and j.lever > 0 else "–",
                "–" if j.design is None else force(j.design),
                f"{j.use:.0%}",
            )
        )
        load = findings.load_named(j.load)
        words = (
            say("under {load}", load=shown(j.load))
            if load is None
            else say(
                "under {load}: {down} down, {push} of push",
                load=shown(j.load),
                down=force(load.down),
                push=force(load.push),
            )
        )
        rows.append((f"   {words}", *[""] * 6))
    heads = (
        say("joint"),
        say("tenon bends"),
        say("walls pressed"),
        say("walls sheared"),
        say("shoulder holds"),
        say("pull"),
        say("use"),
    )
    return Block(
        say("Joints: the tenon alone, and with the shoulder (stresses in {stress})", stress=stress_unit(book)),
        heads,
        (36.0, 28.0, 28.0, 28.0, 34.0, 16.0, 12.0),
        (True, *[False] * 6),
        tuple(rows),
    )


def _wood(book: Book, findings: StrengthFindings, sources: Sequence[str]) -> Block:
    """The strengths that were used, each with the number of its source."""
    rows = tuple(
        (
            shown(f.species), shown(f.what), stress_figure(book, f.mean), "–" if f.cov is None else f"{f.cov:.0%}",
            "–" if f.allowable is None else stress_figure(book, f.allowable), f"[{sources.index(f.source) + 1}]",
        )
        for f in findings.wood
    )  # fmt: skip
    return Block(
        say("Means, how they vary, and the allowable of ASTM D245 from memory ({stress})", stress=stress_unit(book)),
        (say("wood"), say("strength"), say("mean"), say("vary"), say("allowable"), say("source")),
        (36.0, 62.0, 20.0, 16.0, 22.0, 18.0),
        (True, True, *[False] * 4),
        rows,
    )
