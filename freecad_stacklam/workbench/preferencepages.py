# SPDX-License-Identifier: LGPL-2.1-or-later

"""The pages in Edit ▸ Preferences: what panels and new documents start from. FreeCAD makes them anew each time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import FreeCADGui

from freecad_stacklam.benchsheets.drawing.paper import ANSI_Y14_1, ISO_216
from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.keywords import shown as say_known
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import BandSaw, ShopSettings
from freecad_stacklam.languages import LANGUAGES
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import choice, length_field, set_value, value_of
from freecad_stacklam.workbench.fields.panel import icon_path
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.preferencepage import OPEN, Page

QtWidgets = widgets()

#: The lengths that panels start with: their captions and what they are.
LENGTHS = {
    "stock": (
        QT_TRANSLATE_NOOP("StackLam", "Stock thickness"),
        QT_TRANSLATE_NOOP("StackLam", "Thickness of the boards as they leave the planer"),
    ),
    "allowance": (
        QT_TRANSLATE_NOOP("StackLam", "Allowance"),
        QT_TRANSLATE_NOOP("StackLam", "Wood left outside the form, all round, for the saw, slip and sanding"),
    ),
    "tenon_side": (
        QT_TRANSLATE_NOOP("StackLam", "Side of a tenon"),
        QT_TRANSLATE_NOOP("StackLam", "Side of a square mortise for a floating tenon"),
    ),
    "pin_diameter": (
        QT_TRANSLATE_NOOP("StackLam", "Diameter of pins"),
        QT_TRANSLATE_NOOP("StackLam", "Diameter of the dowels you have"),
    ),
    "pin_depth": (
        QT_TRANSLATE_NOOP("StackLam", "Depth of pins"),
        QT_TRANSLATE_NOOP("StackLam", "Depth of the hole in each of the two layers"),
    ),
    "pin_margin": (
        QT_TRANSLATE_NOOP("StackLam", "Wood round pins"),
        QT_TRANSLATE_NOOP("StackLam", "Least wood from a pin to the finished surface, to joints and to voids"),
    ),
    "wall": (
        QT_TRANSLATE_NOOP("StackLam", "Wall of a hollow"),
        QT_TRANSLATE_NOOP("StackLam", "Least wood around a void, in every direction"),
    ),
    "carving_bit": (
        QT_TRANSLATE_NOOP("StackLam", "Bit for depth holes"),
        QT_TRANSLATE_NOOP("StackLam", "Diameter of the bit that bores depth holes"),
    ),
    "carving_pitch": (
        QT_TRANSLATE_NOOP("StackLam", "From hole to hole"),
        QT_TRANSLATE_NOOP("StackLam", "Distance between two depth holes"),
    ),
    "carving_leave": (
        QT_TRANSLATE_NOOP("StackLam", "Left under holes"),
        QT_TRANSLATE_NOOP("StackLam", "Wood between the tip of the bit and the finished surface"),
    ),
}
SAW_WORDS = {
    "blade": QT_TRANSLATE_NOOP("StackLam", "Band saw: blade"),
    "height": QT_TRANSLATE_NOOP("StackLam", "Band saw: height"),
    "throat": QT_TRANSLATE_NOOP("StackLam", "Band saw: throat"),
}
#: What machines can take; the other rows of the shop's saw are how it is sawn.
MACHINES = ("shortest_to_machine", "jointer_width", "planer_width", "drill_stroke")


class StartPage(Page):
    """Sheets, and what panels offer first."""

    def __init__(self) -> None:
        super().__init__(translate("StackLam", "Start values"), "StackLam_StartPage")
        self.start = choice(
            "startWith",
            [
                (translate("StackLam", "the values used last"), "last"),
                (translate("StackLam", "the values of these pages"), "set"),
            ],
            preferences.starts_with(),
            translate("StackLam", "A value that you change here counts as used last from then on"),
        )
        self._place(0, 0, "", [(translate("StackLam", "Panels start with"), self.start)], span=2)
        self._sheets()
        self._wood()
        self.lengths = {name: self._length(name) for name in LENGTHS}
        self._place(
            1, 1, translate("StackLam", "Panels"),
            [
                (translate("StackLam", "Wood"), self.species),
                (translate("StackLam", "Glue"), self.glue),
                *((translate("StackLam", LENGTHS[name][0]), field) for name, field in self.lengths.items()),
            ],
        )  # fmt: skip
        self.back = QtWidgets.QPushButton(translate("StackLam", "Back to first values"))
        self.back.setObjectName("firstValues")
        self.back.setToolTip(
            translate("StackLam", "Forget what was set on these pages and what was used last; your clamps are kept")
        )
        self.back.clicked.connect(self._forget)
        self.columns.addWidget(self.back, 2, 0)
        self._finish()

    def _sheets(self) -> None:
        def shown(name: str) -> Any:
            return preferences.on_page(name, preferences.first(name))

        self.language_field = choice(
            "sheetLanguage",
            [(translate("StackLam", "as FreeCAD"), ""), *((name, code) for code, name in LANGUAGES.items())],
            preferences.sheet_language(),
            translate("StackLam", "What drawings, bill and cautions are written in"),
        )
        papers = [*ISO_216, *ANSI_Y14_1]
        self.paper = choice(
            "paper", [(name, name) for name in papers], shown("paper"),
            translate("StackLam", "Paper for the lists and overviews"),
        )  # fmt: skip
        self.units = choice(
            "units",
            [(translate("StackLam", "millimetres"), "mm"), (translate("StackLam", "inches and fractions"), "in")],
            shown("units"),
            translate("StackLam", "How lengths are written on sheets and in the bill of a new document"),
        )
        self.fraction = choice(
            "fraction",
            [(translate("StackLam", "to 1/{} in").format(n), n) for n in preferences.FRACTIONS],
            int(shown("fraction")),
            translate("StackLam", "Inches are written to the nearest of these"),
        )
        self.both = QtWidgets.QCheckBox(translate("StackLam", "Other unit in brackets"))
        self.both.setObjectName("bothUnits")
        self.both.setChecked(bool(shown("both_units")))
        self._place(
            1, 0, translate("StackLam", "Sheets"),
            [
                (translate("StackLam", "Language"), self.language_field),
                (translate("StackLam", "Paper"), self.paper),
                (translate("StackLam", "Lengths in"), self.units),
                (translate("StackLam", "Fractions"), self.fraction),
                ("", self.both),
            ],
        )  # fmt: skip

    def _wood(self) -> None:
        def listed(name: str, known: list[str]) -> list[tuple[str, str]]:
            kept = str(preferences.on_page(name, preferences.first(name)))
            return [(say_known(text), text) for text in (known if kept in known else [*known, kept])]

        self.species = choice(
            "species", listed("species", sorted(species_table())),
            preferences.on_page("species", preferences.first("species")),
            translate("StackLam", "The wood that is offered first"),
        )  # fmt: skip
        self.glue = choice(
            "glueKind", listed("glue", list(glue_table())), preferences.on_page("glue", preferences.first("glue")),
            translate("StackLam", "The kind of glue that a new glue-up starts with"),
        )  # fmt: skip

    def _length(self, name: str) -> Any:
        return length_field(
            _camel(name), preferences.on_page(name, preferences.first(name)), translate("StackLam", LENGTHS[name][1])
        )

    def _forget(self, *_: Any) -> None:
        """Forget all at once; the fields of all pages then show the first values."""
        preferences.forget()
        for page in OPEN.values():
            page.show_first()

    def _put_first(self) -> None:
        for name, field in self.lengths.items():
            set_value(field, float(preferences.first(name)))
        for box, name in (
            (self.paper, "paper"), (self.units, "units"), (self.fraction, "fraction"), (self.species, "species"),
            (self.glue, "glue"),
        ):  # fmt: skip
            box.setCurrentIndex(box.findData(preferences.first(name)))
        self.both.setChecked(False)
        self.start.setCurrentIndex(0)
        self.language_field.setCurrentIndex(0)

    def saveSettings(self) -> None:
        """See Page; and how panels start."""
        super().saveSettings()
        preferences.set_ways(str(self.start.currentData()), str(self.language_field.currentData()))

    def values(self) -> dict[str, float | str]:
        """See Page."""
        lengths = {name: value_of(field) for name, field in self.lengths.items()}
        for name, held in lengths.items():
            if held < 0 or (held == 0 and name not in ("allowance", "carving_leave")):
                raise Refusal(
                    translate("StackLam", "“{}” must be more than nothing: give a length.").format(
                        translate("StackLam", LENGTHS[name][0])
                    )
                )
        return {
            **lengths,
            "species": self.species.currentData(),
            "glue": self.glue.currentData(),
            "paper": self.paper.currentData(),
            "units": self.units.currentData(),
            "fraction": float(self.fraction.currentData()),
            "both_units": float(self.both.isChecked()),
        }


class ShopPage(Page):
    """How boards are sawn, what the machines take, and what work costs."""

    def __init__(self) -> None:
        super().__init__(translate("StackLam", "Shop"), "StackLam_ShopPage")
        self.kept = preferences.shop(preferences.on_page)
        self.rows = RowFields(self.kept, without=("glue_spread", *preferences.STAVES))
        saw = self.kept.band_saw or BandSaw()
        self.saw = {
            name: length_field(
                _camel(f"saw_{name}"), getattr(saw, name) or 0.0, translate("StackLam", "0: nothing is said about it")
            )
            for name in preferences.SAW
        }
        sawn = [name for name, row in self.rows.rows.items() if row.group == "Saw" and name not in MACHINES]
        self._place(0, 0, translate("StackLam", "Sawing and planing"), self.rows.lines(*sawn))
        self._place(0, 1, translate("StackLam", "Staves"), self.rows.of_group("Staves"))
        self._place(
            1, 0, translate("StackLam", "What your machines take (0: not known)"),
            [
                *self.rows.lines(*MACHINES),
                *((translate("StackLam", SAW_WORDS[name]), field) for name, field in self.saw.items()),
            ],
        )  # fmt: skip
        self.rate = _figure("carvingRate", "carving_rate", translate("StackLam", " l/h"))
        self.rate.setToolTip(translate("StackLam", "Litres that you carve in an hour, as measured; 0: no time is told"))
        self.price = _figure("hourPrice", "hour_price", "")
        self.price.setToolTip(translate("StackLam", "In your own money; 0: hours have no price"))
        self._place(
            1, 1, translate("StackLam", "Your rates"),
            [
                (translate("StackLam", "Carved in an hour"), self.rate),
                (translate("StackLam", "An hour costs"), self.price),
            ],
        )  # fmt: skip
        self._finish()

    def _put_first(self) -> None:
        for name, row in self.rows.rows.items():
            field = self.rows[name]
            if isinstance(field, QtWidgets.QComboBox):
                field.setCurrentIndex(field.findData(row.first))
            else:
                set_value(field, float(row.first or 0.0))
        for field in self.saw.values():
            set_value(field, 0.0)
        for figure in (self.rate, self.price):
            figure.setValue(0.0)

    def values(self) -> dict[str, float | str]:
        """See Page."""
        saw: dict[str, Any] = {name: value_of(field) or None for name, field in self.saw.items()}
        band_saw = BandSaw(**saw) if any(saw.values()) else None
        shop: ShopSettings = replace(self.kept, band_saw=band_saw, **self.rows.values())
        return {
            **preferences.of_shop(shop),
            "carving_rate": float(self.rate.value()),
            "hour_price": float(self.price.value()),
        }


def _camel(name: str) -> str:
    head, *tail = name.split("_")
    return head + "".join(part.capitalize() for part in tail)


def _figure(name: str, kept: str, suffix: str) -> Any:
    field = QtWidgets.QDoubleSpinBox()
    field.setObjectName(name)
    field.setRange(0.0, 1e6)
    field.setDecimals(2)
    field.setSuffix(suffix)
    field.setSpecialValueText(translate("StackLam", "none"))
    field.setValue(float(preferences.on_page(kept, preferences.first(kept))))
    return field


PAGES: tuple[Callable[[], Page], ...] = (StartPage, ShopPage)


def register() -> None:
    """Give FreeCAD the pages, under our name in Edit ▸ Preferences, and the picture beside it."""
    FreeCADGui.addIcon("preferences-stacklam", icon_path("stacklam"))
    for page in PAGES:
        FreeCADGui.addPreferencePage(page, "StackLam")
