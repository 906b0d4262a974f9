"""What a check found, in words.

Each wording is made once, from the record, as sentences, the card, the ledger and captions;
terminal and report set the same ones.
"""
