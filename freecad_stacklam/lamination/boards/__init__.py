# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is bought: staves, seams, the cutting plan, its judge and its bounds."""
