"""An engine's start in time: spun by its starter, sparked, lit or not, let go, running or not."""
