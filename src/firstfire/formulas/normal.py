"""Ends of the normal distribution, in standard deviations."""

from __future__ import annotations

NINETY = 1.6449
"""What 5-95 % spans each way; one in twenty lies beyond."""

NINETY_FIVE = 1.960
"""What 2.5-97.5 % spans each way."""

RARE = 3.0902
"""What one in a thousand lies beyond."""
