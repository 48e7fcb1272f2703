# SPDX-License-Identifier: LGPL-2.1-or-later

"""FreeCAD document objects: thin proxies over lamination, and the adapter between Part shapes and meshes."""
