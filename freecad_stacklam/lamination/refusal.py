# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one way the computation says no."""


class Refusal(ValueError):
    """Input that cannot be planned. The text is one sentence a maker understands and says what to do."""
