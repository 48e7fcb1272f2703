# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the deep check found, in tables: the worst places, the loads they are worst under, the same looked at again."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import in_inches, unit_words
from freecad_stacklam.benchsheets.findings.strengthtables import stress_figure, stress_unit
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.opinion import SecondOpinion
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_place, place_figures
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.quantities import POUND_FORCE, format_force
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.stress.checks import HOLDS, USUAL
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, QUARTER_SAWN
from freecad_stacklam.lamination.words import mark, say

Triple = tuple[float, float, float]
#: Places that are listed and drawn, the worst first.
LISTED = 8
#: The lie of the rings as boards are sold.
SAWN = {FLAT_SAWN: mark("flat"), QUARTER_SAWN: mark("quarter")}
#: A part of a load that nobody feels: the floor's answer may be out by less without a word.
BALANCED = 0.01

ESTIMATE = (
    mark(
        "Use is stress over mean strength, at which half of all pieces break. A quarter ({usual:.0%}) is usual where "
        "it is not known how far the strength scatters, half ({holds:.0%}) where it is."
    ),
    mark(
        "An estimate, never a compliance test: try the piece by degrees, as with sandbags, to more than it is to "
        "carry, before anyone relies on it. Keep to the codes and the licensed practice of the place where they ask "
        "for more."
    ),
)


@dataclass(frozen=True)
class PlacedLoad:
    """A load where it stands in the model: force N."""

    name: str
    place: Triple
    force: Triple


@dataclass(frozen=True)
class Loads:
    """The loads that something is worst under, in the order of the tables; each has its letter."""

    each: tuple[PlacedLoad, ...]

    @classmethod
    def of(cls, findings: DeepFindings) -> Loads:
        """Those of the worst places first."""
        again = [findings.other_rings, findings.without_tenon, findings.loose_feet, findings.fine]
        spots = [*findings.spots[:LISTED], *again]
        return cls(tuple(dict.fromkeys(_load(spot) for spot in spots if spot is not None)))

    def letter(self, spot: WeakSpot) -> str:
        """Of the load that a place is worst under."""
        return letters(self.each.index(_load(spot)))

    def lettered(self) -> list[tuple[str, PlacedLoad]]:
        """All of them with their letters."""
        return [(letters(i), load) for i, load in enumerate(self.each)]


def _load(spot: WeakSpot) -> PlacedLoad:
    return PlacedLoad(spot.load, spot.load_place, spot.force)


def per_hundred(book: Book) -> float:
    """A map's value, use for each 100 N, in points of a hundred for each 100 N, or for each 100 lbf among inches."""
    return 100.0 * (POUND_FORCE if in_inches(book.units) else 1.0)


def blocks(book: Book, findings: DeepFindings, loads: Loads, width: float) -> list[Block]:
    """All tables and notes, with what could not be done said first."""
    said: list[str] = []
    if findings.refused:
        said.append(say("It could not be made: {refused}", refused=told(findings.refused, book.units.first)))
    if findings.stopped:
        said.append(say("It was stopped before its end: a worse place may be left. Let it run through."))
    said += [told(one, book.units.first) for one in (findings.untried, *findings.cautions) if one]
    found = [notes(say("Not done"), said, width)] if said else []
    if findings.spots:
        found += [_places(book, findings, loads), _loads(book, loads)]
    if findings.second_opinion is not None:
        found.append(notes(say("A second opinion, by other programs"), _opinion(book, findings.second_opinion), width))
    return [*found, notes(say("What it rests on"), _rests_on(book, findings), width)]


def _where(spot: WeakSpot) -> str:
    return say("tenon of {tenon}", tenon=spot.tenon) if spot.tenon else f"{spot.stack} {spot.layer}"


def _coordinates(book: Book, place: Triple) -> list[str]:
    """As the checks tell a place: to 0.1 mm or 0.01 in."""
    return place_figures(place, book.units.first)


def _row(book: Book, spot: WeakSpot, loads: Loads) -> tuple[str, ...]:
    x, y, z = _coordinates(book, spot.place)
    return (
        _where(spot),
        shown(spot.kind),
        x,
        y,
        z,
        stress_figure(book, spot.stress),
        stress_figure(book, spot.strength),
        f"{spot.index:.0%}",
        say("known") if spot.scatter_known else "–",
        say(SAWN.get(spot.rings, spot.rings)),
        loads.letter(spot),
    )


_HEADS = (
    mark("layer"),
    mark("what breaks"),
    "x",
    "y",
    "z",
    mark("stress"),
    mark("mean"),
    mark("use"),
    mark("vary"),
    mark("sawn"),
    mark("load"),
)
_SHARES = (27.0, 34.0, 15.0, 15.0, 15.0, 14.0, 14.0, 12.0, 14.0, 15.0, 10.0)
_LEFT = (True, True, *[False] * 6, False, False, False)


def _units(book: Book) -> str:
    return say("all sizes in {unit}, stresses in {stress}", unit=unit_words(book.units), stress=stress_unit(book))


def _places(book: Book, findings: DeepFindings, loads: Loads) -> Block:
    """The worst places, then the worst of all when something is otherwise."""
    rows = [(str(i), *_row(book, spot, loads)) for i, spot in enumerate(findings.spots[:LISTED], 1)]
    otherwise = (
        (say("Worst with the boards sawn the other way"), findings.other_rings),
        (say("Worst without the tenons"), findings.without_tenon),
        (say("Worst with feet that may lift and slide"), findings.loose_feet),
        (say("Worst in {fine_cells} finer cells", fine_cells=findings.fine_cells), findings.fine),
    )
    for words, spot in otherwise:
        if spot is not None:
            rows += [(words, *[""] * len(_HEADS)), ("", *_row(book, spot, loads))]
    title = say("The worst places, in the model ({units})", units=_units(book))
    return Block(
        title,
        ("", *(say(head) if len(head) > 1 else head for head in _HEADS)),
        (6.0, *_SHARES),
        (True, *_LEFT),
        tuple(rows),
    )


def _loads(book: Book, loads: Loads) -> Block:
    """Each load: how much it presses down and pushes, whither, and where it stands."""
    rows = []
    for letter, load in loads.lettered():
        x, y, z = _coordinates(book, load.place)
        push = hypot(load.force[0], load.force[1])
        towards = f"{degrees(atan2(load.force[1], load.force[0])) % 360:.0f}°" if push >= 1.0 else "–"
        first = book.units.first
        rows.append(
            (letter, shown(load.name), format_force(-load.force[2], first), format_force(push, first), towards, x, y, z)
        )
    return Block(
        say("The loads they are worst under (towards: degrees round from RIGHT)"),
        ("", say("load"), say("down"), say("push"), say("towards"), say("at x"), "y", "z"),
        (6.0, 76.0, 20.0, 18.0, 18.0, 17.0, 17.0, 17.0),
        (True, True, *[False] * 6),
        tuple(rows),
    )


def _opinion(book: Book, opinion: SecondOpinion) -> list[str]:
    """What they say of the worst place, beside what is said here."""
    if opinion.refused:
        return [told(opinion.refused, book.units.first)]
    place = format_place(opinion.place, book.units.first)
    return [
        say(
            "At ({place}), under “{load}”, they reckon {stress} {unit} ({index:.1%} of the mean, {kind}) where it is "
            "{our_stress} {unit} here ({our_index:.1%}, {our_kind}), with {elements} elements.",
            place=place,
            load=shown(opinion.load),
            stress=stress_figure(book, opinion.stress),
            unit=stress_unit(book),
            index=opinion.index,
            kind=shown(opinion.kind),
            our_stress=stress_figure(book, opinion.our_stress),
            our_index=opinion.our_index,
            our_kind=shown(opinion.our_kind),
            elements=opinion.elements,
        ),
        *(told(note, book.units.first) for note in opinion.notes),
    ]


def _balance(findings: DeepFindings) -> str:
    """How well the floor answers the loads, in words: a part of a load that nobody feels is none."""
    if findings.balance < BALANCED:
        return say("What the floor bears matches every load.")
    return say(
        "What the floor bears is out by up to {balance:.1g} % of a load: take the figures with care.",
        balance=100 * findings.balance,
    )


def _rests_on(book: Book, findings: DeepFindings) -> list[str]:
    said = [say(sentence, usual=USUAL, holds=HOLDS) for sentence in ESTIMATE]
    if findings.cells:
        said.append(
            say(
                "Reckoned with the piece in {cells} small blocks, under {tried} loads. {balance}",
                cells=findings.cells,
                tried=findings.tried,
                balance=_balance(findings),
            )
        )
    return [*said, *(told(note, book.units.first) for note in findings.notes)]
