"""Cams, springs and the suction-opened inlet: what a builder makes and holds."""
