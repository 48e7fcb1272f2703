# SPDX-License-Identifier: LGPL-2.1-or-later

"""A language in which every sentence that was said stands between ⟦ and ⟧, so that one that escaped is seen."""

from __future__ import annotations

from gettext import NullTranslations


class Pseudo(NullTranslations):
    """Every sentence between ⟦ and ⟧."""

    def gettext(self, message: str) -> str:
        """A sentence."""
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """A sentence with a number of things."""
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"

    def pgettext(self, context: str, message: str) -> str:
        """A word of several meanings."""
        return f"⟦{message}⟧"
