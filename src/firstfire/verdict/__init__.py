"""Judging, words, the sentence, the result and its JSON."""
