# SPDX-License-Identifier: LGPL-2.1-or-later

"""A shop's bits as one line of text: "35 mm; 1-3/8 in; 25 mm spade"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from freecad_stacklam.lamination.lengths import format_bit, parse_length
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import LEADS, SHOWN_KINDS, Bit
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import say

_KINDS = re.compile(rf"(.*?)\s*({'|'.join([*LEADS, *SHOWN_KINDS.values()])})?", re.IGNORECASE | re.DOTALL)


def bits_text(bits: Sequence[Bit]) -> str:
    """The bits in their own measures, parted by semicolons; the usual kind, rim, goes without saying."""
    return "; ".join(format_bit(bit.diameter) + (f" {bit.kind}" if bit.kind != "rim" else "") for bit in bits)


def read_bits(text: str, unit: str = "mm", known: Sequence[Bit] = ()) -> tuple[Bit, ...]:
    """The bits of such a text, diameters in mm; plain numbers are in `unit`. A bit among `known` keeps what else is
    known of it. Raises Refusal."""
    found = []
    for part in filter(None, (piece.strip() for piece in re.split(r"[;\n]|,(?!\d)", text))):
        split = _KINDS.fullmatch(part)
        assert split is not None  # its first group takes anything
        diameter, kind = parse_length(split[1], unit), (split[2] or "rim").lower()
        kind = next((k for k, shown in SHOWN_KINDS.items() if shown == kind), kind)
        if diameter <= 0:
            raise Refusal(say("“{text}” is no bit: give its diameter, as in 35 mm or 1-3/8 in.", text=part))
        alike = [b for b in known if abs(b.diameter - diameter) < ROUNDING and b.kind == kind]
        found.append(replace(alike[0]) if alike else Bit(diameter, kind))
    return tuple(found)
