# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every refusal that the computation writes, read from its source: one sentence that says what to do."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import freecad_stacklam.lamination
from freecad_stacklam.lamination.boards.rack import read_rack
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal, either, told
from freecad_stacklam.lamination.settings.file import read_settings

ROOM = Path(freecad_stacklam.lamination.__file__).parent


def sentence(node: ast.expr) -> str | None:
    """The text of a string or f-string, its figures as …; None where it is made elsewhere."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "say":
        said = sentence(node.args[0])
        return None if said is None else re.sub(r"(?<!\{)\{[^{}]*\}(?!\})", "…", said)
    if isinstance(node, ast.JoinedStr):
        return "".join(str(v.value) if isinstance(v, ast.Constant) else "…" for v in node.values)
    return None


def refusals() -> list[tuple[str, str]]:
    found = []
    for path in sorted(ROOM.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("Refusal", "NoRoom"):
                text = sentence(node.args[-1])
                if text is not None:
                    found.append((f"{path.relative_to(ROOM)}:{node.lineno}", text))
    return found


def test_a_refusal_is_a_value_error_with_its_sentence() -> None:
    """So that code which knows nothing of this package can catch it."""
    with pytest.raises(ValueError, match=r"^Plane the boards thinner\.$"):
        raise Refusal("Plane the boards thinner.")


def test_every_refusal_is_one_sentence_for_a_maker() -> None:
    found = refusals()
    assert len(found) > 80
    for place, text in found:
        assert "\n" not in text and "  " not in text, place
        assert ". " not in text.replace("No. ", ""), f"{place}: more than one sentence"
        assert text.endswith((".", "…")), f"{place}: {text}"
        for word in ("Traceback", "None", "Error", "kwargs", "dict"):
            assert word not in text, f"{place} speaks of {word}"


#: A figure with a metric unit behind it.
METRIC = re.compile(r"[\d…] ?(?:mm|cm|m|kg|l|litres?)(?![\w°²³])")
#: What shows how a length is written, in either unit.
QUOTED = re.compile(r"“[^”]*”|\"[^\"]*\"")
EXAMPLE = re.compile(r"as in (?:[^:]* (?:or|and) |1; |120 )[^:]*|\d+ml|write [^:]*in[^:]*")


def test_no_refusal_tells_a_length_in_millimetres_alone() -> None:
    """Every length goes through `lengths.size`, which writes it in both: a bare unit behind a figure is a fault."""
    assert METRIC.search("a pin … mm deep") and not METRIC.search("a pin … deep")
    assert [(p, t) for p, t in refusals() if METRIC.search(EXAMPLE.sub("", QUOTED.sub("", t)))] == []


@pytest.mark.parametrize(
    ("mm", "metric", "inch"),
    # 44.45 / 25.4 = 1-3/4; 45 / 25.4 = 1.7717; 0.05 / 25.4 = 0.00197; 19 / 25.4 = 0.7480, which is no 64th.
    [(44.45, "44.45 mm", "1-3/4 in"), (45.0, "45 mm", "1.772 in"), (0.05, "0.05 mm", "0.002 in"),
     (19.0, "19 mm", "0.748 in"), (410.04, "410 mm", "16.143 in"), (0.0, "0 mm", "0 in")],
)  # fmt: skip
def test_a_length_is_told_in_the_makers_units(mm: float, metric: str, inch: str) -> None:
    refusal = Refusal(f"A pin {size(mm)} deep comes through: give less.")
    assert str(refusal) == refusal.told("mm") == f"A pin {metric} deep comes through: give less."
    assert refusal.told("in") == f"A pin {inch} deep comes through: give less."


def test_a_sentence_made_of_others_keeps_both() -> None:
    inner = Refusal(f"give {size(25.4)} or more")
    assert Refusal(f"shop.toml, line 3: {inner.sentence}").told("in") == "shop.toml, line 3: give 1 in or more"
    assert told("no figure at all", "in") == "no figure at all" and either("Ø 35 mm", "Ø 35 mm") == "Ø 35 mm"


@pytest.mark.parametrize("units", ["mm", "in"])
def test_records_that_know_no_units_refuse_in_the_files(units: str) -> None:
    """A settings file says its units: what it refuses is told in them, through every wrapping."""
    faults = {
        '[[stack]]\nform = "a"\nallowance = "-5mm"': ("give 0 mm to 200 mm", "give 0 in to 7.874 in"),
        '[[stack]]\nform = "a"\npins = {depth = "10mm", dowel_room = "12.7mm"}': ("12.7 mm shorter", "1/2 in shorter"),
        '[shop]\nmin_stave = "76.2mm"\nmax_stave = "50.8mm"': ("at least 76.2 mm", "at least 3 in"),
    }
    for text, wanted in faults.items():
        with pytest.raises(Refusal) as refusal:
            read_settings(f'units = "{units}"\n{text}')
        assert wanted[units == "in"] in str(refusal.value)
        assert units == "mm" or not METRIC.search(QUOTED.sub("", str(refusal.value)))


def test_what_a_refusal_repeats_of_a_file_breaks_no_line_and_is_cut() -> None:
    with pytest.raises(Refusal) as found:
        read_rack('name,width,length,thickness\na,"10\n20\x1b[2J' + "9" * 300 + '",1m,45mm\n')
    said = str(found.value)
    assert said.isprintable()
    assert len(said) < 400
    with pytest.raises(Refusal) as found:
        read_settings("a" * 900 + " = 1", "mine.toml")
    assert str(found.value).startswith("mine.toml, line 1: " + "a" * 120 + "… there is no such key")
    assert len(str(found.value)) < 400
    # Cut only within its own quotation marks, and not at all where it is short enough.
    assert str(Refusal(f"“{'a b ' * 60}” and “c”: give less.")) == f"“{'a b ' * 50}…” and “c”: give less."
    assert str(Refusal("“a” is none: give one.")) == "“a” is none: give one."
