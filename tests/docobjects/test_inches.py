# SPDX-License-Identifier: LGPL-2.1-or-later

"""A plan in inches tells nothing in mm, kg or litres: sheets, checks, the bill and the command line's lines."""

from __future__ import annotations

import argparse
import csv
import io
import re

import pytest

pytestmark = pytest.mark.freecad

#: A figure with a metric unit behind it.
METRIC = re.compile(r"\d\s?(?:mm|cm|m|kg|g|l|litres?|ml|mm²|cm²|m²|mm³|m³|g/m²)(?![\w°²³'’])")
#: Where both are meant: the check scales are printed in both, and bits and dowels bear the measure they are sold in.
BOTH = re.compile(r"100 mm|Ø \d+(?:\.\d)? mm")


def metric(text: str) -> bool:
    return METRIC.search(BOTH.sub("", text)) is not None


def test_the_judge_itself() -> None:
    assert all(metric(t) for t in ("0.2 mm for", "3kg", "0.34 l, about", "180 g/m² on"))
    assert not any(
        metric(t) for t in ("1-3/8 in", "5 lb", "measure 100 mm or 4 in", "10 layers", "dowel Ø 8 mm × 13/16 in")
    )


@pytest.mark.parametrize("name", ["plant_stand", "plant_stand_wedged"])
def test_nothing_metric_in_inches(name, tmp_path, monkeypatch, capsys):
    import FreeCAD  # noqa: F401

    from freecad_stacklam import batch
    from freecad_stacklam.data import example_form, example_settings
    from freecad_stacklam.docobjects.reading import wood

    drawn = []
    real = batch.drawing_book

    def book(plan, *rest, **named):
        drawn.append((plan, real(plan, *rest, **named)))
        return drawn[-1][1]

    monkeypatch.setattr(batch, "drawing_book", book)
    monkeypatch.setattr(batch, "write_pdf", lambda *_, **__: None)
    monkeypatch.setattr(wood, "LOOK_LONGER", 2)  # what is told is the same
    wedged = name != "plant_stand"
    asked = argparse.Namespace(
        language=None,
        form=str(example_form()) if wedged else None,
        settings=str(example_settings().with_name(f"{name}.toml")) if wedged else None,
        stock=None, allowance=None, axis=None, paper="Letter", units="in", species=None, fraction=32,
        both_units=False, form_unit=None, example=None, dxf=False, svg=False, out=str(tmp_path / "out"),
    )  # fmt: skip
    batch.run(asked)
    ((plan, sheets),) = drawn
    assert [c.says for c in plan.checks if metric(c.says)] == []
    texts = {mark.text for s in sheets for mark in s.marks if hasattr(mark, "text")}
    assert sorted(t for t in texts if metric(t)) == []
    rows = list(csv.reader(io.StringIO((tmp_path / "out" / "bill.csv").read_text(encoding="utf-8"))))
    assert [cell for row in rows for cell in row if metric(cell)] == []
    assert not any(re.search(r"\b(mm|kg)\d?$", head) for head in rows[0])
    assert [line for line in capsys.readouterr().out.splitlines() if metric(line)] == []
