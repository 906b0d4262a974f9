"""Textbook relations as pure functions, one theme a file."""
