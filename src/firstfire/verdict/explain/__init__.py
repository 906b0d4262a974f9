"""Opening a judgement.

What stands behind one number is found, worked out line by line and told, in words, on the terminal
and as JSON.
"""
