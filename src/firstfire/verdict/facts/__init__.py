"""What is judged and reckoned of an engine.

From its events, as they were run, come margins with their spans and odds, the order in which they
end it, the clock of a run that is held, and changes that were really tried; `found` holds them all
as one record. Nothing here makes a sentence.
"""
