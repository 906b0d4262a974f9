"""Engines side by side.

Two checks are set against each other, the first being what the others are held against: what
differs, what that did, and whether metal would help.
"""
