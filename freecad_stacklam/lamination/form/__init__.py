# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form: its mesh, how it lies in the stack, and its volumes."""
