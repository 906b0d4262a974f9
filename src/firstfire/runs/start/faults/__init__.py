"""Faults of a start: each a layer over the engine's values, or a thing that the start obeys."""
