# SPDX-License-Identifier: LGPL-2.1-or-later

"""What lies inside the form: hollows and pins."""
