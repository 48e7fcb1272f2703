# SPDX-License-Identifier: LGPL-2.1-or-later

"""Settings back into the text of a settings file, for tests that what is read is what was written."""

from __future__ import annotations

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.options.tomllines import toml_value
from freecad_stacklam.lamination.settings.file import facts_of
from freecad_stacklam.lamination.settings.job import Settings


def write_settings(settings: Settings) -> str:
    """The text of a settings file that reads back as the same settings."""
    facts = facts_of(settings)
    lines, tables = [], []
    for row in rows_of(Settings):
        value = facts.get(row.key)
        if value in (None, {}, []):
            continue
        if row.record is None:
            lines.append(f"{row.key} = {toml_value(value)}")
        else:
            head = f"[[{row.key}]]" if row.many else f"[{row.key}]"
            tables += [(head, part) for part in (value if row.many else (value,))]
    for head, part in tables:
        lines += ["", head, *(f"{key} = {toml_value(v)}" for key, v in part.items())]
    return "\n".join(lines) + "\n"
