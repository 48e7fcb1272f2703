# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Piece object: how the finished piece is used, and what is found about it: its weight, whether it stands and
holds, and what a year does to it.

There is one for all stacks of a document. The observer keeps its quick figures in step; the slow ones are made when the
maker asks, and are told to be wanting until then.
"""

from __future__ import annotations

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import PieceObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.piece import take_kept
from freecad_stacklam.docobjects.reading.pieces import found_anew
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import UseSettings
from freecad_stacklam.lamination.words import mark

_NO_FIGURES = {"Mass": 0.0, "Says": [], "Verdict": "", "Pending": [], "Deeper": []}


class Piece(Proxy):
    """The finished piece of a document. The name of this class is written in users' files and never changes."""

    KIND = "piece"
    PROPERTIES = (
        Property(
            "Bool", "Suppressed", "Piece",
            mark("Leave the checks of the finished piece out, without deleting it"),
        ),
        Property("StringList", "Zeros", "Piece", mark("Properties whose 0 is meant, not left out"), hidden=True),
        Property("Bool", "CheckUse", "Piece", mark("Check whether it stands and holds")),
        Property("Bool", "CheckYear", "Piece", mark("Follow it through a year in the room")),
        Property("Bool", "CountFinish", "Piece", mark("Count finish and abrasives in the bill")),
        Property("Bool", "CountHours", "Piece", mark("Make a quote at your own rates")),
        Property("Bool", "CheckAllowance", "Piece", mark("Add up what the steps of the work take of the allowance")),
        *properties_of(UseSettings),
        *properties_of(ClimateSettings),
        *properties_of(FinishSettings),
        *properties_of(RateSettings),
        *properties_of(BudgetSettings),
        Property(
            "StringList", "Months", "Climate",
            mark(
                "A bundled climate by its name, or twelve lines of temperature and humidity, January "
                "first: 20 °C, 45 %"
            ),
        ),
        Property(
            "StringList", "Loads", "Use",
            'Loads of your own, one a line: {name = "two children", down = "500 N", place = "edge", inset = "60 mm"}',
        ),
        Property("Float", "Mass", "Found", mark("What the finished piece weighs, kg"), result=True),
        Property("StringList", "Says", "Found", mark("What to mind of the finished piece"), result=True),
        Property("StringList", "Pending", "Found", mark("What is looked for only when it is asked for"), result=True),
        Property("StringList", "Deeper", "Found", mark("What was looked at deeper, and for which plan"), result=True),
        Property("String", "Verdict", "Found", mark("The worst of its checks: ok, caution or stop"), result=True),
        Property(
            "String", "Looked", "Found",
            mark("What was found when it was looked at deeper"),
            result=True, hidden=True,
        ),
        Property("String", "ShownFor", "Found", mark("What these figures were made for"), result=True, hidden=True),
    )  # fmt: skip

    def onDocumentRestored(self, obj: PieceObject) -> None:
        """See Proxy; and what was looked at deeper is there again, without being looked at anew."""
        super().onDocumentRestored(obj)
        take_kept(obj.Looked)

    def compute(self, obj: PieceObject) -> None:
        """Find the quick figures and write them."""
        set_result(obj, "ShownFor", "")
        if obj.Suppressed:
            set_results(obj, {**_NO_FIGURES, "Verdict": "suppressed"})
            return
        try:
            found, key, deeper = found_anew(obj)
        except Exception:
            set_results(obj, _NO_FIGURES)
            raise
        checks = piece_checks(found, units_in(obj.Document))
        verdicts = {check.verdict for check in checks}
        set_results(
            obj,
            {
                "Mass": 0.0 if found.mass is None else round(found.mass, 3),
                "Says": [check.says for check in checks if check.verdict != "ok"],
                "Pending": list(found.pending),
                "Deeper": [f"{what}: {stands}" for what, stands in deeper.items()],
                "Verdict": next((v for v in ("stop", "caution", "ok") if v in verdicts), "ok"),
            },
        )
        set_result(obj, "ShownFor", key)
