"""Test pieces and proving before the first fire."""
