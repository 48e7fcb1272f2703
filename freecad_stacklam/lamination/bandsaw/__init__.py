# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the blanks ask of the band saw: a blade that turns in their inner curves, and room beside it."""
