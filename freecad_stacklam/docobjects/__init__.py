"""FreeCAD document objects: thin proxies over lamination, and the adapter between Part shapes and meshes."""
