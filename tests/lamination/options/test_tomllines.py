# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lines of keys, and values as TOML, against the standard library's own reader of TOML 1.0."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.tomllines import key_lines, line_of, toml_text, toml_value

TEXT = '''title = "a [header] = in a string"  # and = in a comment
[shop]
kerf = "3mm"
"odd key" = 1

[[stack]]
stock = [
  "45mm",  # [not.a] = header
  "27mm",
]
pins = { diameter = "8mm", count = 2 }
note = """
form = "not a key"
"""
[stack.hollow]
wall = 50
[[stack]]
form = 'second'
axis.x = 1
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 1), (("shop",), 2), (("shop", "kerf"), 3), (("shop", "odd key"), 4), (("stack", 0), 6),
        (("stack", 0, "stock"), 7), (("stack", 0, "pins"), 11), (("stack", 0, "note"), 12),
        (("stack", 0, "hollow"), 15), (("stack", 0, "hollow", "wall"), 16), (("stack", 1), 17),
        (("stack", 1, "form"), 18), (("stack", 1, "axis"), 19), (("stack", 1, "axis", "x"), 19),
    ],
)  # fmt: skip
def test_every_key_is_found_on_its_line(path: tuple, line: int) -> None:
    tomllib.loads(TEXT)  # the text is TOML
    assert key_lines(TEXT)[path] == line


def test_a_key_inside_braces_stands_with_its_table() -> None:
    lines = key_lines(TEXT)
    assert ("stack", 0, "form") not in lines  # it is inside a string
    assert line_of(lines, ("stack", 0, "pins", "diameter")) == 11
    assert line_of(lines, ("nowhere", 3)) is None


@given(st.text(max_size=30))
def test_any_text_is_read_back_by_the_standard_reader(text: str) -> None:
    if any("\ud800" <= c <= "\udfff" for c in text):
        return
    assert tomllib.loads(f"a = {toml_text(text)}")["a"] == text


values = st.recursive(
    st.booleans() | st.integers(-(2**60), 2**60) | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(min_size=1, max_size=6), inner, max_size=3),
    max_leaves=8,
)


@given(values)
def test_any_value_is_read_back_by_the_standard_reader(value: Any) -> None:
    assert tomllib.loads(f"a = {toml_value(value)}")["a"] == value


@given(st.lists(st.sampled_from(["[a]", "[[b]]", "c = 1", 'd = "x = [y"', "e = [1,\n 2]", "# f = 2", ""]), max_size=12))
def test_lines_of_whatever_is_toml(parts: list[str]) -> None:
    text = "\n".join(parts)
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    rows = text.split("\n")
    for path, line in key_lines(text).items():
        last = path[-1] if isinstance(path[-1], str) else path[-2]
        assert str(last) in rows[line - 1]
