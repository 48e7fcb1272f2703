# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names of columns and files. Letters after Z as spreadsheets name their columns (common practice, no source)."""

from __future__ import annotations

from freecad_stacklam.lamination.names import file_name, letters


def test_letters_go_on_after_z() -> None:
    assert [letters(i) for i in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_file_names_hold_no_sign_that_a_system_refuses() -> None:
    # No system forbids letters, digits, - and _ (POSIX portable file names have the same, and the point).
    assert file_name("Foot/left: 1*") == "Foot_left__1"
    assert file_name("Plant stand", also=" ") == "Plant stand"
    assert file_name("///") == "stack"
