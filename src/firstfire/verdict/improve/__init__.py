"""Making an engine hold.

Known changes are tried one upon another, the least work first, until nothing that is judged asks
for one or none is left.
"""
