# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is glued besides runs of layers: staves into panels, stacks over their tenons."""
