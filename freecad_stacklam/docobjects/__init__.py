# SPDX-License-Identifier: LGPL-2.1-or-later

"""FreeCAD document objects: thin proxies over lamination, and the adapter between Part shapes and meshes.

Whichever of them FreeCAD loads first, from a user's file or for a command, documents are watched from then on.
"""

from freecad_stacklam.docobjects.observer import install

install()
