"""What fire eats, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

CROWN_IS_EATEN = Example(
    by="2.3 mm have charred or gone, of a crown of 6.1 mm",
    demand=2.3e-3,
    capacity=6.1e-3,
    said={"piston.crown_thickness": "6.1 mm"},
    given={"depth_charred_in_the_mean": 2.3e-3},
    rises={"crown": 250.0},
)

HEAD_IS_THROUGH = Example(
    by="460 K over air of 20 °C all through, 753 K, is beyond where PETG chars: all of the 17 mm",
    demand=17e-3,
    capacity=17e-3,
    said={"head.thickness": "17 mm"},
    rises={"head": 460.0, "crown": 250.0},
)

HEAD_IS_WHOLE = Example(
    by="150 K over air of 20 °C, 443 K, is far from where PETG chars: nothing of the 17 mm",
    demand=0.0,
    capacity=17e-3,
    said={"head.thickness": "17 mm"},
    rises={"head": 150.0, "crown": 460.0},
)

PORT_IS_EATEN = Example(
    by="1.7 mm have charred or gone, of a port's wall followed to 6 mm (tests/parts/moments.py)",
    demand=1.7e-3,
    capacity=6e-3,
    given={"depth_charred_in_the_mean": 1.7e-3},
    rises={"exhaust_port": 250.0},
)

PORT_CHARS = Example(
    by=("Face 270 K over air of 31 °C; chars at 641 K, 641 - 304.15 over it. Definition of a rise"),
    demand=270.0,
    capacity=336.85,
    said={"surroundings.air_temperature": "31 °C"},
    given={"decomposition": 641.0},
    rises={"exhaust_port": 270.0, "head": 140.0},
)
