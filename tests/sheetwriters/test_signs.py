# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stand-ins for signs that cannot be printed, and the note that names them. Names: the Unicode Character Database."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.sheet import Circle, Sheet, Text
from freecad_stacklam.sheetwriters.signs import spelled

ACTUAL = Text((120.0, 15.2), "Print at 100 % / actual size.", fit=70.0, bold=True)


def sheet(*words: str) -> Sheet:
    marks = (Circle((0, 0), 1.0, "cut"), ACTUAL, *(Text((50.0, 50.0 + n), text) for n, text in enumerate(words)))
    return Sheet("layer", "Layer 1", (210.0, 297.0), marks)


def words_of(found: Sheet) -> list[str]:
    return [mark.text for mark in found.marks if isinstance(mark, Text) and mark.text != ACTUAL.text]


def test_a_page_whose_signs_all_print_is_left_as_it_is() -> None:
    plain = sheet("Åse’s stand × 2")
    assert spelled(plain, lambda _: True) is plain


def test_a_sign_is_replaced_wherever_it_stands_and_named_once() -> None:
    found = spelled(sheet("Stand \U0001f6f7", "\U0001f6f7 2"), lambda c: ord(c) < 0x10000)
    assert words_of(found) == [
        "Stand □",
        "□ 2",
        "□ stands for “sled” (U+1F6F7): no font on this computer has it.",
    ]
    (note,) = [mark for mark in found.marks if isinstance(mark, Text) and "stands" in mark.text]
    assert note.fit is not None and note.at[0] > 0 and note.at[0] + note.fit < ACTUAL.at[0]


def test_a_french_page_has_its_note_at_the_same_place() -> None:
    """French parts the figure and its sign by a space that does not break (CLDR's percent pattern of fr)."""
    actual = Text(ACTUAL.at, "Imprimez à 100\u00a0% / taille réelle.", fit=70.0, bold=True)
    french = Sheet("layer", "Couche 1", (210.0, 297.0), (actual, Text((50.0, 50.0), "\U0001f6f7")))
    notes = [spelled(page, lambda c: ord(c) < 0x10000).marks[-1] for page in (french, sheet("\U0001f6f7"))]
    assert [(note.at, note.fit) for note in notes if isinstance(note, Text)] == [((9.5, 17.5), 97.0)] * 2


def test_a_font_without_the_square_has_a_question_mark_and_what_only_colours_leaves_no_gap() -> None:
    found = spelled(sheet("\U0001f44d\U0001f3fd!\ufe0f"), str.isascii)
    assert words_of(found)[0] == "?!"
    assert words_of(found)[1].startswith("? stands for “thumbs up sign” (U+1F44D): ")


def test_a_note_names_three_and_stands_in_the_corner_of_a_page_without_a_strip() -> None:
    bare = Sheet("labels", "Labels", (100.0, 60.0), (Text((1.0, 1.0), "αβγδ"),))
    found = spelled(bare, str.isascii)
    note = found.marks[-1]
    assert isinstance(note, Text) and "“greek small letter gamma” (U+03B3), …: no font" in note.text
    assert found.marks[0] == Text((1.0, 1.0), "????")
