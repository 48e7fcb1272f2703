# SPDX-License-Identifier: LGPL-2.1-or-later

"""From the form to its layers: shadow, blanks, glue lines, proof."""
