"""The spark set up: trigger, true angle, coil, plug, leads, advance."""
