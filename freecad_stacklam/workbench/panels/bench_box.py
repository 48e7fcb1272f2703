# SPDX-License-Identifier: LGPL-2.1-or-later

"""The box of the joint's panel about the bench: how mortises are made, and the bits and the drill that the shop has."""

from __future__ import annotations

from dataclasses import replace

from freecad_stacklam.docobjects.base.family import shop_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.reading.wood import settings_of_shop
from freecad_stacklam.lamination.joints.bitlist import bits_text, read_bits
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import group, length_field, units_shown, value_of
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.recorded import options_of, run

QtWidgets = widgets()
#: Options of a joint that are about the bench.
BENCH = ("before_glue_up", "chisel_reach")


class BenchBox:
    """Fields for a joint's own options of the bench, and for the shop's bits and drill, which all joints share."""

    def __init__(self, document: Document, fields: RowFields) -> None:
        self.document = document
        self._first = settings_of_shop(shop_in(document))
        self._told = shown_decimals(bits_text(self._first.bits))
        self.bits = QtWidgets.QLineEdit(self._told)
        self.bits.setObjectName("bits")
        self.bits.setPlaceholderText(translate("StackLam", "those that shops keep"))
        self.bits.setToolTip(
            translate("StackLam", "Your bits, as in 35 mm; 1-3/8 in; 25 mm spade. They are kept for all joints")
        )
        self.stroke = length_field(
            "drillStroke",
            self._first.drill_stroke or 0.0,
            translate("StackLam", "How far your drill press feeds; 0: nothing is said about it"),
        )
        self.box, _ = group(
            translate("StackLam", "At the bench"),
            [
                *fields.lines(*BENCH),
                (translate("StackLam", "Bits"), self.bits),
                (translate("StackLam", "Drill stroke (0: any)"), self.stroke),
            ],
        )

    def shop(self) -> ShopSettings:
        """The shop with bits and drill as they stand. Raises Refusal for a text that names no bit."""
        text, bits = self.bits.text(), self._first.bits
        if text != self._told:
            bits = read_bits(typed_decimals(text), units_shown(), bits)
        return replace(self._first, bits=bits, drill_stroke=value_of(self.stroke) or None)

    def keep(self) -> None:
        """Put bits and drill into the document's shop where they were changed; part of the caller's undo step."""
        shop = self.shop()
        if shop != self._first:
            run("shop", "shop", self.document, **options_of(shop))
