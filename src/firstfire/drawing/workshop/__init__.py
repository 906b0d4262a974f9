"""Dimensioned drawings of single parts, for whoever makes them of metal."""
