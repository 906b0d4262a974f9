"""Every part and every way it can fail, each a short judgement beside its part."""

from firstfire.parts.all import REPORTED, failures, ways

__all__ = ["REPORTED", "failures", "ways"]
