# SPDX-License-Identifier: LGPL-2.1-or-later

"""What panels are put together from, whatever they ask: their head, sections that fold, rows that fit a narrow window,
tables that are typed into, files beside a document, and locks on what an expression drives."""
