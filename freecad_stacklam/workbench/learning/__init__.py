# SPDX-License-Identifier: LGPL-2.1-or-later

"""A guided first piece: from an empty document to printed drawings, each step looked for in the document."""
