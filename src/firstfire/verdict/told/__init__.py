"""The JSON contract of a check.

Its models say which field is read from which attribute of the records, and what is written beside
it.
"""
