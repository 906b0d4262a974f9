"""Shapes that the engine file doesn't say and several rooms must take alike."""

from __future__ import annotations

BOSS_OUTSIDE = 1.8
"""Outside of a pin boss over the pin's diameter; it stands under the crown as a pillar (common
practice, no source: bosses are drawn and printed up to the crown)."""
