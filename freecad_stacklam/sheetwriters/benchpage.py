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
from freecad_stacklam.benchsheets.pages.continued import first_page, next_page
from freecad_stacklam.benchsheets.pages.labels import Shifted
from freecad_stacklam.benchsheets.pages.reminders import GLUE
from freecad_stacklam.data import bench_page_texts
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.lamination.words import mark, say, spoken
from freecad_stacklam.sheetwriters import benchwords
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.sheetwriters.benchwords import in_the_language, quoted
from freecad_stacklam.sheetwriters.svg import svg_text

#: What a file begins with, by which it is known as ours.
HEAD = "<!DOCTYPE html>\n<!-- Made by StackLam -->\n"
#: Pictures are drawn as on paper so wide and so high, mm, and then as wide as the screen.
WIDE, HIGH = 96.0, 120.0


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
    script = in_the_language(script)
    policy = (
        f"default-src 'none'; img-src data:; style-src 'sha256-{_hash(looks)}'; script-src 'sha256-{_hash(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    title = escape(plan.title or say("Glue-up"))
    return (
        f'{HEAD}<html lang="{spoken()}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{say('{title}: glue-up', title=title)}</title>\n<style>{looks}</style>\n</head>\n"
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


def _glue_words(glue_up: GlueUpPlan, units: Units) -> str:
    opened, assembly, clamped, cured = map(format_time, glue_up.times)
    return say(
        "{glue}: open time {opened}, assembly time {assembly}, in clamps {clamped}, cured after {cured}. Sizes in "
        "{unit}.",
        glue=begun(shown(glue_up.glue_name)),
        opened=opened,
        assembly=assembly,
        clamped=clamped,
        cured=cured,
        unit=unit_name(units),
    )


def _layer_name(sheet: Sheet) -> str:
    """What a layer's sheet is called here, pages that go on with it too."""
    name = say("{stack}, layer {layer}", stack=sheet.stack, layer=sheet.layer)
    return name if first_page(sheet.title) == sheet.title else next_page(name)


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


def _link(set_up: SetUp) -> str:
    sentence = mark("{set_up}, round {round}") if set_up.held else mark("{set_up}, round {round} – A LIMIT IS BROKEN")
    return say(sentence, set_up=begun(set_up_name(set_up)), round=set_up.round)


# --- the whole --------------------------------------------------------------------------------------------------------


def _body(plan: Plan, glue_up: GlueUpPlan, sheets: Sequence[Sheet], units: Units, title: str) -> str:
    links = "".join(
        f'<li><a href="#set-up-{s.number}"><b>{s.number}</b><span>{escape(_link(s))}</span></a></li>'
        for s in glue_up.set_ups
    )
    conditions = [f"{say(VERDICTS[c.verdict])} – {c.says}" for c in glue_up.conditions]
    lay = [f"{what}: {words}" if what else words for what, words in laid_out(glue_up, units)]
    parts = [
        '<a id="bar" hidden><small id="bar-name"></small><output id="bar-left"></output>'
        '<small id="bar-what"></small></a>',
        f"<h1>{say('{title}: glue-up', title=title)}</h1>",
        f"<p>{escape(_glue_words(glue_up, units))}</p>",
        f'<p class="small">{quoted(benchwords.FIRST, plan=plan_revision(plan))}</p>',
        f'<noscript><p class="box stop">{quoted(benchwords.NO_SCRIPTS)}</p></noscript>',
        f'<p class="box">{quoted(benchwords.LOCKED)}</p>',
        f'<p class="box stop" id="unkept" hidden>{quoted(benchwords.UNKEPT)}</p>',
        '<div class="row"><button id="sound" type="button" aria-pressed="false">'
        f"{quoted(benchwords.SOUND_OFF)}</button></div>",
        '<p class="small" id="screen"></p>',
        f'<nav><ol>{links}<li><a href="#layers"><b>↓</b><span>{quoted(benchwords.LAYERS)}</span></a></li></ol></nav>',
        f"<h2>{quoted(benchwords.BEFORE)}</h2>",
        _list(say("Not planned"), [f"{left.what}: {left.says}" for left in glue_up.left_out]),
        _ticks(say("Conditions"), "condition", conditions),
        _ticks(say("Lay out"), "lay", lay),
        _ticks(say("Dry run, before each set-up"), "dry", dry_run(plan, units)),
        *(_set_up(plan, glue_up, s, units) for s in glue_up.set_ups),
        _layers(sheets),
        f'<h2>{quoted(benchwords.ANEW)}</h2><div class="row"><button id="forget" type="button">'
        f"{quoted(benchwords.FORGET)}</button></div>",
    ]  # fmt: skip
    return "\n".join(part for part in parts if part)


def _set_up(plan: Plan, glue_up: GlueUpPlan, set_up: SetUp, units: Units) -> str:
    own = f"set-up-{set_up.number}"
    box: Box = (2.0, 0.0, WIDE - 2.0, HIGH)
    what = (joint_view if set_up.kind == JOINT else side_view)(plan, set_up, box) if set_up.kind != EDGES else Picture()
    limits = "".join(f"<li>{_text(limit.says)}</li>" for limit in set_up.limits)
    name = escape(begun(set_up_name(set_up)))
    parts = [
        f'<section id="{own}"><h2>{set_up.number}. {name}</h2>',
        *(f"<p>{_text(fact)}</p>" for fact in set_up_facts(set_up, glue_up, foot_of(plan, set_up), units)),
        f'<div class="box stop"><p>{quoted(benchwords.BROKEN)}</p><ul>{limits}</ul></div>' if limits else "",
        _ticks(say("Before it closes"), f"{own}-before", set_up.before),
        _list(say("Why a set-up of its own"), [set_up.why]),
        '<div class="two">',
        _figure(what, say("What goes on what"), HIGH),
        _figure(spread_maps(plan, set_up, units, box), faces_text(glue_up), HIGH),
        "</div>",
        _clock(set_up, glue_up, units),
        '<div class="two">',
        _figure(clamp_plan(plan, set_up, box), say("Clamps, from above"), HIGH) if set_up.places else "",
        _pads(plan, set_up, units, own),
        "</div>",
        _pressures(set_up, units),
        _list(say("What would help the pressure, best first"), set_up.helps, ordered=True),
        _list(say("Mind"), [*set_up.cautions, say(GLUE)]),
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
            glue += f"<small>{quoted(benchwords.FROM_TO, start=clock_text(start), end=clock_text(end))}</small>"
        rows.append(
            f'<div class="line" data-line="{line}" data-name="{escape(name)}"><b>{escape(name)}{glue}</b>'
            f'<button class="go" type="button" data-do="spread">{quoted(benchwords.SPREAD)}</button>'
            f'<button type="button" data-do="laid">{quoted(benchwords.LIES)}</button></div>'
        )
    return (
        f'<div class="clock" id="set-up-{set_up.number}-clock" data-set="{set_up.number}" '
        f'data-name="{escape(set_up_name(set_up))}" '
        f'data-open="{set_up.clock.open_limit:.0f}" data-assembly="{set_up.clock.assembly_limit:.0f}" '
        f'data-clamp="{glue_up.times[2]:.0f}">'
        '<div class="faces">'
        f'<div class="face"><b>{quoted(benchwords.ASSEMBLY)}</b><output data-part="assembly"></output>'
        '<small data-part="assembly-says"></small></div>'
        f'<div class="face"><b>{quoted(benchwords.OPEN)}</b><output data-part="open"></output>'
        '<small data-part="open-says"></small></div></div>'
        f'<p class="box stop" data-part="back" hidden>{quoted(benchwords.SET_BACK)}</p>'
        f'<p class="small">{quoted(benchwords.TAP)}</p>{"".join(rows)}'
        f'<div class="row"><button class="go" type="button" data-part="tight">{quoted(benchwords.TIGHT)}</button></div>'
        '<p data-part="after" hidden></p>'
        f'<div class="row"><button type="button" data-part="undo">{quoted(benchwords.UNDO)}</button>'
        f'<button type="button" data-part="again">{quoted(benchwords.AGAIN)}</button></div></div>'
    )


def _pads(plan: Plan, set_up: SetUp, units: Units, own: str) -> str:
    """The pads as ticks, in the order in which they are tightened."""
    stack = stack_named(plan, set_up.stack)
    words = []
    for i, place in enumerate(tightened(set_up), start=1):
        jaw = inner_jaw(stack, set_up, place)
        x, y = (place_number(v, units) for v in place.at)
        words.append(f"{i}: x {x}, y {y}; {place.press}, {force_text(place.force, units)}{f', {jaw}' if jaw else ''}")
    ticks = _ticks(
        say("Tighten in this order ({unit} from the axis cross)", unit=unit_name(units)), f"{own}-pad", words
    )
    return f"<div>{ticks}</div>" if ticks else ""


def _pressures(set_up: SetUp, units: Units) -> str:
    one = Units(units.first, units.fraction)
    rows = []
    for p in set_up.pressures if any(p.mean for p in set_up.pressures) else ():
        mean, least = pressure_text(p.mean, one), pressure_text(p.least, one)
        name, reach, area = pressed_name(set_up, p.lower), f"{100 * p.reached:.0f} %", area_text(p.area, one)
        rows.append((name, mean, least, reach, area, wanted_text(p.wanted, one)))
    heads = (say("line"), say("mean"), say("least"), say("in reach"), say("area"), say("wanted"))
    wants = {row[-1] for row in rows}
    if len(wants) != 1:
        return f"<h3>{quoted(benchwords.REACHED)}</h3>\n{_table(heads, rows)}" if rows else ""
    # What all want is told once: a phone is too narrow for it in every row.
    table = _table(heads[:-1], [row[:-1] for row in rows])
    return f"<h3>{_text(say('Pressure reached; {pressure} wanted', pressure=wants.pop()))}</h3>\n{table}"


def _layers(sheets: Sequence[Sheet]) -> str:
    layers = [sheet for sheet in sheets if sheet.kind == "layer"]
    parts = [
        f"<details><summary>{escape(_layer_name(sheet))}</summary>"
        f'<div class="sheet">{_image(sheet, sheet.title)}</div></details>'
        for sheet in layers
    ]
    told = f'<p class="small">{quoted(benchwords.LARGER)}</p>' if parts else f"<p>{quoted(benchwords.NO_SHEETS)}</p>"
    return f'<h2 id="layers">{quoted(benchwords.LAYERS)}</h2>\n{told}{"".join(parts)}'
