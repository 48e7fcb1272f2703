# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bench page: the glue-up as one HTML file for a phone or tablet, without a network.

All that is read stands in the page itself; a script adds clocks and ticks, which the browser keeps under the plan's
fingerprint. The page may load nothing (its content security policy), and its texts and pictures are in it.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable, Sequence
from hashlib import sha256
from html import escape
from pathlib import Path

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, Units, unit_name, units_of
from freecad_stacklam.benchsheets.drawing.revision import glue_up_digest, plan_revision
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.gluing.clampplan import clamp_plan
from freecad_stacklam.benchsheets.gluing.gluewords import (
    VERDICTS,
    area_text,
    begun,
    clock_text,
    faces_text,
    force_text,
    line_grams_text,
    line_name,
    place_number,
    pressed_name,
    pressure_text,
    set_up_facts,
    set_up_name,
    wanted_text,
)
from freecad_stacklam.benchsheets.gluing.ordersheet import dry_run, laid_out
from freecad_stacklam.benchsheets.gluing.picture import Box, Picture, lowest
from freecad_stacklam.benchsheets.gluing.runs import foot_of, inner_jaw, stack_named, tightened
from freecad_stacklam.benchsheets.gluing.sideview import joint_view, side_view
from freecad_stacklam.benchsheets.gluing.spreadmaps import spread_maps
from freecad_stacklam.benchsheets.pages.labels import Shifted
from freecad_stacklam.benchsheets.pages.reminders import GLUE
from freecad_stacklam.data import bench_page_texts
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.sheetwriters.svg import svg_text

#: What a file begins with, by which it is known as ours.
HEAD = "<!DOCTYPE html>\n<!-- Made by StackLam -->\n"
#: Pictures are drawn as on paper so wide and so high, mm, and then as wide as the screen.
WIDE, HIGH = 96.0, 120.0
LOCKED = (
    "The alarm cannot ring while the phone is locked or the page is closed. The clocks go on all the same and are "
    "right as soon as you look; set a kitchen timer besides."
)


def fingerprint(plan: Plan) -> str:
    """Sixteen hexadecimal digits, of a SHA-256 over the plan's revision and what its set-ups glue and when: pages of
    other plans keep other ticks, and the same plan made again finds its own."""
    digest = sha256(plan_revision(plan).encode() + plan.title.encode())
    if plan.glue_up is not None:
        digest.update(glue_up_digest(plan.glue_up))
    return digest.hexdigest()[:16]


def write_bench_page(plan: Plan, sheets: Iterable[Sheet], path: str | Path, units: AnyUnits = "mm") -> None:
    """The bench page of a plan that has a glue-up, with its layer sheets. Raises Refusal."""
    text = bench_page(plan, sheets, units)
    with aside(path) as temporary:
        temporary.write_text(text, encoding="utf-8")


def bench_page(plan: Plan, sheets: Iterable[Sheet], units: AnyUnits = "mm") -> str:
    """The page as text. Raises ValueError for a plan without a glue-up."""
    glue_up = plan.glue_up
    if glue_up is None:
        raise ValueError(f"{plan.title} has no glue-up")
    looks, script = bench_page_texts()
    policy = (
        f"default-src 'none'; img-src data:; style-src 'sha256-{_hash(looks)}'; script-src 'sha256-{_hash(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    title = escape(plan.title or "Glue-up")
    return (
        f'{HEAD}<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{title}: glue-up</title>\n<style>{looks}</style>\n</head>\n"
        f'<body data-plan="{fingerprint(plan)}">\n{_body(plan, glue_up, list(sheets), units_of(units), title)}\n'
        f"<script>{script}</script>\n</body>\n</html>\n"
    )


#: The blank between a figure and its unit, where no line breaks.
_UNBROKEN = re.compile(
    r"(?<=\d) (?=(?:mm|in|s|min|h|d|g|oz|kg|lb|lbf|N|kN|MPa|psi|cm²|in²|%|°C|°F)(?![\w°]))"
    r"|(?<=\bmin) (?=\d)|(?<=\bh) (?=\d)"
)


def _text(words: str) -> str:
    """Words as they stand in HTML, figures with their units."""
    return escape(_UNBROKEN.sub("\u00a0", words))


def _hash(text: str) -> str:
    return b64encode(sha256(text.encode()).digest()).decode()


# --- pieces of the page -----------------------------------------------------------------------------------------------


def _list(title: str, sentences: Sequence[str], ordered: bool = False) -> str:
    some = [f"<li>{_text(sentence)}</li>" for sentence in sentences if sentence]
    kind = "ol" if ordered else "ul"
    return f"<h3>{escape(title)}</h3>\n<{kind}>{''.join(some)}</{kind}>" if some else ""


def _ticks(title: str, name: str, sentences: Sequence[str]) -> str:
    rows = [
        f'<label class="tick"><input type="checkbox" data-tick="{name}-{i}"><span>{_text(sentence)}</span></label>'
        for i, sentence in enumerate(sentences)
        if sentence
    ]
    return f"<h3>{escape(title)}</h3>\n{''.join(rows)}" if rows else ""


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table whose cells after the first hold figures; it scrolls by itself where it is wider than the screen."""
    if not rows:
        return ""
    top = "".join(f"<th{' class=figure' if i else ''}>{_text(head)}</th>" for i, head in enumerate(heads))
    body = ""
    for row in rows:
        cells = (f"<td{' class=figure' if i else ''}>{_text(cell)}</td>" for i, cell in enumerate(row))
        body += f"<tr>{''.join(cells)}</tr>"
    return f'<div class="scroll"><table><tr>{top}</tr>{body}</table></div>'


def _image(sheet: Sheet, words: str) -> str:
    """The sheet as a picture. Its size keeps its place, so that nothing moves under the finger while it loads."""
    data = b64encode(svg_text(sheet).encode()).decode()
    wide, high = (round(10 * side) for side in sheet.paper)
    size = f'width="{wide}" height="{high}"'
    return f'<img loading="lazy" {size} alt="{escape(words)}" src="data:image/svg+xml;base64,{data}">'


def _figure(picture: Picture, caption: str, top: float) -> str:
    """A picture, cut off under its lowest mark; nothing where it holds none."""
    if not picture.marks:
        return ""
    low = lowest(picture.marks, top) - 2.0
    moved = Shifted(0.0, -low)
    draw(picture.marks, moved)
    sheet = Sheet("picture", caption, (WIDE, top - low + 1.0), tuple(moved.marks))
    legend = f'<p class="small">{escape(picture.legend)}</p>' if picture.legend else ""
    return (
        f'<figure class="small-picture"><figcaption>{escape(caption)}</figcaption>'
        f"{_image(sheet, caption)}{legend}</figure>"
    )


# --- the whole --------------------------------------------------------------------------------------------------------


def _body(plan: Plan, glue_up: GlueUpPlan, sheets: Sequence[Sheet], units: Units, title: str) -> str:
    links = "".join(
        f'<li><a href="#set-up-{s.number}"><b>{s.number}</b><span>{escape(begun(set_up_name(s)))}, round {s.round}'
        f"{'' if s.held else ' – A LIMIT IS BROKEN'}</span></a></li>"
        for s in glue_up.set_ups
    )
    conditions = [f"{VERDICTS.get(c.verdict, c.verdict)} – {c.says}" for c in glue_up.conditions]
    lay = [f"{what}: {words}" if what else words for what, words in laid_out(glue_up, units)]
    parts = [
        '<a id="bar" hidden><small id="bar-name"></small><output id="bar-left"></output>'
        '<small id="bar-what"></small></a>',
        f"<h1>{title}: glue-up</h1>",
        f"<p>{escape(begun(glue_up.glue_name))}: open time {format_time(glue_up.times[0])}, assembly time "
        f"{format_time(glue_up.times[1])}, in clamps {format_time(glue_up.times[2])}, cured after "
        f"{format_time(glue_up.times[3])}. Sizes in {escape(unit_name(units))}.</p>",
        f'<p class="small">Plan {plan_revision(plan)}. What stands on your own can, and your machines\' '
        "manuals, come first.</p>",
        "<noscript><p class=\"box stop\">Scripts do not run here, so there are no clocks and nothing is kept: open the "
        "file in a browser.</p></noscript>",
        f'<p class="box">{escape(LOCKED)}</p>',
        '<p class="box stop" id="unkept" hidden>This browser keeps nothing: ticks and clocks are lost when the page '
        "is closed. Note the start on paper.</p>",
        '<div class="row"><button id="sound" type="button" aria-pressed="false">Sound and vibration: off</button>'
        "</div>",
        '<p class="small" id="screen"></p>',
        f"<nav><ol>{links}<li><a href=\"#layers\"><b>↓</b><span>Layer sheets</span></a></li></ol></nav>",
        "<h2>Before the first glue</h2>",
        _list("Not planned", [f"{left.what}: {left.says}" for left in glue_up.left_out]),
        _ticks("Conditions", "condition", conditions),
        _ticks("Lay out", "lay", lay),
        _ticks("Dry run, before each set-up", "dry", dry_run(plan, units)),
        *(_set_up(plan, glue_up, s, units) for s in glue_up.set_ups),
        _layers(sheets),
        '<h2>Begin anew</h2><div class="row"><button id="forget" type="button">Forget all ticks and clocks of this '
        "plan</button></div>",
    ]  # fmt: skip
    return "\n".join(part for part in parts if part)


def _set_up(plan: Plan, glue_up: GlueUpPlan, set_up: SetUp, units: Units) -> str:
    mark = f"set-up-{set_up.number}"
    box: Box = (2.0, 0.0, WIDE - 2.0, HIGH)
    what = (joint_view if set_up.kind == JOINT else side_view)(plan, set_up, box) if set_up.kind != EDGES else Picture()
    limits = "".join(f"<li>{_text(limit.says)}</li>" for limit in set_up.limits)
    name = escape(begun(set_up_name(set_up)))
    parts = [
        f'<section id="{mark}"><h2>{set_up.number}. {name}</h2>',
        *(f"<p>{_text(fact)}</p>" for fact in set_up_facts(set_up, glue_up, foot_of(plan, set_up), units)),
        f'<div class="box stop"><p>A limit is broken</p><ul>{limits}</ul></div>' if limits else "",
        _ticks("Before it closes", f"{mark}-before", set_up.before),
        _list("Why a set-up of its own", [set_up.why]),
        '<div class="two">',
        _figure(what, "What goes on what", HIGH),
        _figure(spread_maps(plan, set_up, units, box), f"Glue {faces_text(glue_up)}", HIGH),
        "</div>",
        _clock(set_up, glue_up, units),
        '<div class="two">',
        _figure(clamp_plan(plan, set_up, box), "Clamps, from above", HIGH) if set_up.places else "",
        _pads(plan, set_up, units, mark),
        "</div>",
        _pressures(set_up, units),
        _list("What would help the pressure, best first", set_up.helps, ordered=True),
        _list("Mind", [*set_up.cautions, GLUE]),
        "</section>",
    ]
    return "\n".join(part for part in parts if part)


def _lines(set_up: SetUp) -> list[tuple[int, str, float | None]]:
    """What is spread one after the other: number, name, area where it is known."""
    areas = {} if set_up.kind == JOINT else {p.lower: p.area for p in set_up.pressures}
    wet = dict.fromkeys(m.line for m in set_up.clock.moves if m.what == "spread" and m.line is not None)
    found = list(wet) or list(set_up.lines) or [0]
    return [(line, line_name(set_up, line), areas.get(line)) for line in found]


def _clock(set_up: SetUp, glue_up: GlueUpPlan, units: Units) -> str:
    """Open and assembly time, a pair of buttons for each line, and one for the last clamp."""
    grams = set_up.glue / set_up.area if set_up.area else 0.0
    rows = []
    for line, name, area in _lines(set_up):
        glue = f"<small>{_text(line_grams_text(area * grams, units))}</small>" if area else ""
        moves = [m for m in set_up.clock.moves if m.line == line and m.what not in ("cauls", "clamps")]
        if moves:
            start, end = min(m.start for m in moves), max(m.end for m in moves)
            glue += f"<small>{clock_text(start)} to {clock_text(end)}</small>"
        rows.append(
            f'<div class="line" data-line="{line}" data-name="{escape(name)}"><b>{escape(name)}{glue}</b>'
            '<button class="go" type="button" data-do="spread">Spread</button>'
            '<button type="button" data-do="laid">It lies</button></div>'
        )
    return (
        f'<div class="clock" id="set-up-{set_up.number}-clock" data-set="{set_up.number}" '
        f'data-name="{escape(set_up_name(set_up))}" '
        f'data-open="{set_up.clock.open_limit:.0f}" data-assembly="{set_up.clock.assembly_limit:.0f}" '
        f'data-clamp="{glue_up.times[2]:.0f}">'
        '<div class="faces">'
        '<div class="face"><b>Assembly time left</b><output data-part="assembly"></output>'
        '<small data-part="assembly-says"></small></div>'
        '<div class="face"><b>Open time left</b><output data-part="open"></output>'
        '<small data-part="open-says"></small></div></div>'
        '<p class="box stop" data-part="back" hidden>The clock of this device was set back: do not trust these '
        "times.</p>"
        '<p class="small">Tap when the spreader touches the wood, and when the face lies on it. The times under a line '
        f"are the plan's, from the first glue.</p>{''.join(rows)}"
        '<div class="row"><button class="go" type="button" data-part="tight">All clamps are tight</button></div>'
        '<p data-part="after" hidden></p>'
        '<div class="row"><button type="button" data-part="undo">Undo</button>'
        '<button type="button" data-part="again">Start anew</button></div></div>'
    )


def _pads(plan: Plan, set_up: SetUp, units: Units, mark: str) -> str:
    """The pads as ticks, in the order in which they are tightened."""
    stack = stack_named(plan, set_up.stack)
    words = []
    for i, place in enumerate(tightened(set_up), start=1):
        jaw = inner_jaw(stack, set_up, place)
        x, y = (place_number(v, units) for v in place.at)
        words.append(f"{i}: x {x}, y {y}; {place.press}, {force_text(place.force, units)}{f', {jaw}' if jaw else ''}")
    ticks = _ticks(f"Tighten in this order ({unit_name(units)} from the axis cross)", f"{mark}-pad", words)
    return f"<div>{ticks}</div>" if ticks else ""


def _pressures(set_up: SetUp, units: Units) -> str:
    one = Units(units.first, units.fraction)
    rows = []
    for p in set_up.pressures if any(p.mean for p in set_up.pressures) else ():
        mean, least = pressure_text(p.mean, one), pressure_text(p.least, one)
        name, reach, area = pressed_name(set_up, p.lower), f"{100 * p.reached:.0f} %", area_text(p.area, one)
        rows.append((name, mean, least, reach, area, wanted_text(p.wanted, one)))
    heads = ("line", "mean", "least", "in reach", "area", "wanted")
    wants = {row[-1] for row in rows}
    if len(wants) != 1:
        return f"<h3>Pressure reached</h3>\n{_table(heads, rows)}" if rows else ""
    # What all want is told once: a phone is too narrow for it in every row.
    table = _table(heads[:-1], [row[:-1] for row in rows])
    return f"<h3>Pressure reached; {_text(wants.pop())} wanted</h3>\n{table}"


def _layers(sheets: Sequence[Sheet]) -> str:
    shown = [sheet for sheet in sheets if sheet.kind == "layer"]
    parts = [
        f"<details><summary>{escape(sheet.title.replace(', layer sheet', ''))}</summary>"
        f'<div class="sheet">{_image(sheet, sheet.title)}</div></details>'
        for sheet in shown
    ]
    told = '<p class="small">Tap a sheet to see it larger, and again to see it whole.</p>' if parts else (
        "<p>No layer sheets were made with this page.</p>"
    )  # fmt: skip
    return f'<h2 id="layers">Layer sheets</h2>\n{told}{"".join(parts)}'
