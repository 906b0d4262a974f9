"""How warm each wall and part of one cylinder is over a run, at the surface and in depth."""
