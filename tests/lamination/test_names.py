# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names of columns and files. Letters after Z as spreadsheets name their columns (common practice, no source)."""

from __future__ import annotations

from freecad_stacklam.lamination.names import MOST_LETTERS, file_name, file_names, letters


def test_letters_go_on_after_z() -> None:
    assert [letters(i) for i in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_file_names_hold_no_sign_that_a_system_refuses() -> None:
    # No system forbids letters, digits, - and _ (POSIX portable file names have the same, and the point).
    assert file_name("Foot/left: 1*") == "Foot_left__1"
    assert file_name("Plant stand", also=" ") == "Plant stand"
    assert file_name("///") == "stack"
    # ext4, APFS and NTFS bear 255 bytes or letters; a letter takes up to four bytes in UTF-8 (RFC 3629).
    assert file_name("木" * 30_000) == "木" * MOST_LETTERS
    assert len(f"{file_name(chr(0x20000) * 300)}_section_01_gauge_right.dxf".encode()) <= 255


def test_file_names_differ_where_large_letters_are_small_ones() -> None:
    assert file_names(["A B", "A_B", "a b", "A_B_2", "C"]) == ["A_B", "A_B_2", "a_b_3", "A_B_2_2", "C"]
    # “é” may be one sign or two (Unicode, canonical equivalence).
    assert file_names(["\u00e9", "e\u0301"])[1].endswith("2")
