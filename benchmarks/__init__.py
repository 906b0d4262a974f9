"""Measurements of speed and memory, against targets that hold on any machine."""
