# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one way the computation says no."""


class Refusal(ValueError):
    """Input that cannot be planned. The text is one sentence a maker understands and says what to do."""


class Defect(Refusal):
    """What the program made and its own check refused. No setting of the maker's is to blame, and none is advised."""

    def __init__(self, what: str) -> None:
        """what: the thing that failed, and in brackets how."""
        super().__init__(
            f"{what} failed the program's own check: this is a defect of the program and not of your settings; please "
            "report it with the form and its settings."
        )
