# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up in the window: its panel, the table of clamps, and the layers shown apart step by step."""
