# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a page is filled: strip, title block, tables, tiles, and room for labels."""
