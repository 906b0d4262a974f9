"""Letters stand out from the paper as WCAG 2.1 asks (success criterion 1.4.3, AA: 4.5 to 1)."""

import pytest

from firstfire.drawing.tokens import DAY, NIGHT

_AA = 4.5
_LETTERED = ("ink", "pencil", "fails", "marginal", "holds", "changed")


def luminance(colour):
    """Relative luminance. WCAG 2.1, W3C 2018, definition of relative luminance."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one, other):
    """Contrast ratio. WCAG 2.1, W3C 2018, definition of contrast ratio."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_ratio_is_that_of_the_standard():
    # WCAG 2.1 gives 21 to 1 for black on white, the largest there is.
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    # The grey #767676 on white is known as the lightest that still passes AA: 4.54 (W3C, G18).
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("tokens", [DAY, NIGHT], ids=["day", "night"])
@pytest.mark.parametrize("name", _LETTERED)
def test_letters(tokens, name):
    assert contrast(tokens[name], tokens["paper"]) >= _AA
