# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up on paper: what goes on what, where glue and clamps go, and by when."""
