# SPDX-License-Identifier: LGPL-2.1-or-later

"""What panels are built of: fields, figures, messages, picking."""
