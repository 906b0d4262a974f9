"""What to measure first.

The doubt about an engine is shared out among its uncertain inputs, by what a reading of each at
home would take away.
"""
