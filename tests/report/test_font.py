"""The font that is shipped: free to pass on, and light."""

from base64 import b64encode
from importlib.resources import files

FONTS = files("firstfire.report").joinpath("fonts")


def test_the_licence_is_beside_it():
    text = FONTS.joinpath("OFL.txt").read_text(encoding="utf-8")
    assert "SIL Open Font License, Version 1.1" in text
    assert "PERMISSION & CONDITIONS" in text


def test_it_is_light():
    sizes = [
        len(b64encode(FONTS.joinpath(f"{n}.woff2").read_bytes())) for n in ("regular", "semibold")
    ]
    assert sum(sizes) < 60_000
