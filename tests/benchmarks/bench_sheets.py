# SPDX-License-Identifier: LGPL-2.1-or-later

"""How long full-size templates take and how large they are.

Run by hand: python tests/benchmarks/bench_sheets.py [paper]

40 layers of 2000 points, cut line, two finished outlines and the next layer's outline on each, tiled over A4.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from time import perf_counter, process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from plans import large_stack
from sheetsof import template_sheets

from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.sheetwriters.pdf import write_pdf


def main() -> None:
    """Print seconds, pages and bytes."""
    paper = paper_named(sys.argv[1] if len(sys.argv) > 1 else "A4")
    plan = large_stack()
    start, busy = perf_counter(), process_time()
    sheets = template_sheets(plan, paper)
    drawn = perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "drawings.pdf"
        write_pdf(sheets, path)
        written = perf_counter()
        size, busy = path.stat().st_size, process_time() - busy
    print(f"{len(sheets)} pages of {paper.name} from {len(plan.stacks[0].layers)} layers")
    print(f"drawn in {drawn - start:.2f} s, written in {written - drawn:.2f} s")
    print(f"together {written - start:.2f} s, {busy:.2f} s of them on the processor")
    print(f"{size / 1e6:.2f} MB, {size / len(sheets):.0f} bytes per page")


if __name__ == "__main__":
    main()
