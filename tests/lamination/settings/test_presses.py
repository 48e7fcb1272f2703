# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the shop presses with."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import facts_of, read_settings
from freecad_stacklam.lamination.settings.presses import AIR, PressSettings

FILE = """
[[clamp]]
name = "Pipe 900"
count = 8
force = "1050 lbf"
opening = "900mm"
throat = "60mm"
[[clamp]]
name = "Rod"
kind = "rod"
force = "9 kN"
[glue]
kind = "epoxy"
open_time = "20 min"
[room]
temperature = "66 °F"
humidity = "45 %"
"""


def test_read_from_a_file_and_written_back() -> None:
    found = read_settings(FILE)
    pipe, rod = found.presses
    assert (pipe.count, pipe.opening, pipe.throat, rod.kind) == (8, 900.0, 60.0, "rod")
    assert pipe.force == pytest.approx(4670.63, abs=0.01)  # 1 lbf = 4.448 N (NIST SP 811)
    assert found.glue is not None and found.glue.open_time == 1200.0
    assert found.room is not None and found.room.temperature == pytest.approx(18.889, abs=0.001)
    again = facts_of(pipe)
    assert again["force"].endswith(" N") and again["opening"] == "900mm"


def test_no_vacuum_presses_more_than_the_air() -> None:
    """ISO 2533, the standard atmosphere: 0.101325 MPa at sea level."""
    assert AIR <= 0.101325
    with pytest.raises(Refusal, match=r"0\.1"):
        PressSettings("Bag", "vacuum", air=0.2)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('[[clamp]]\nname = "A"\n[[clamp]]\nname = "A"\n', "stands twice"),
        ('[[clamp]]\nforce = "4 kN"\n', "has no name"),
        ('[[clamp]]\nname = "A"\nforce = 4000\n', "with its unit"),
        ('[[clamp]]\nname = "A"\ncount = 0\n', "count"),
        ('[[clamp]]\nname = "A"\nkind = "magnet"\n', "not known here"),
        ('[shop]\nclamps = 12\n', r"write \[\[clamp\]\]"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_line(text: str, says: str) -> None:
    with pytest.raises(Refusal, match=rf"line \d+: .*{says}"):
        read_settings(text)
