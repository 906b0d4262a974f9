"""Numbers that parts need and no engine file says: each with what it stands on.

Named here once, so that none hides in the middle of a judgement.
"""

from __future__ import annotations

SHEAR_OF_PLASTIC = 0.5
"""Shear over tensile strength of a plastic; 0.5 to 0.577 in plastics makers' screw guides."""

SHEAR_OF_METAL = 0.577
"""Shear over tensile yield of a metal: distortion energy, Shigley 9, Eq. 5-21."""

PULSE_RATE = 1.0
"""Strain rate of a gas pulse, 1/s; 1 to 10 for a strain of 1 % in 1 to 10 ms (estimate)."""

ROOM_MOISTURE = 0.3
"""Share of the saturated loss that a print left in the room has; polyamide takes up about a
third of its saturation at 50 % humidity (from memory)."""

SWELLING_PER_UPTAKE = 0.2
"""Linear swelling of a soaked plastic over the mass share of water it took up; 0.2 to 0.3 of
unfilled polyamide (from memory, low confidence)."""

FRICTION_ON_PLASTIC = 0.20
"""Steel on plastic, dry; 0.12 to 0.3 in handbooks. `doubt.press_friction` spreads it."""

FRICTION_ON_METAL = 0.15
"""Steel on steel, as machined; DIN 7190-1 (from memory)."""

ROUGHNESS_PRINTED = 20e-6
"""Depth of the ripples of a printed hole, m, that a press flattens (common practice, no source)."""

ROUGHNESS_METAL = 3e-6
"""Depth of roughness of ground bar or a reamed hole, m (DIN 7190-1 examples, from memory)."""

CROSS_PIN_SHEAR = 420e6
"""Shear strength of a ground cross pin or key, Pa: 0.6 of 700 MPa (silver steel of the catalog)."""

NOTCH_LENGTH_STEEL = 0.06e-3
"""Neuber's length of steel of 700 MPa, m: Shigley 9, Eq. 6-35 (from memory)."""


SPLINE_DEPTH = 0.3
"""Depth of a straight tooth over its pitch round the shaft (common practice, no source)."""

SPLINE_BEARING_PRINTED = 0.4
"""Share of the flanks of printed teeth that bears; 0.75 machined (common practice, no source)."""

SPLINE_BEARING_MACHINED = 0.75
"""As machined: Roloff/Matek (from memory)."""

NUT_FACTOR = 0.20
"""Torque over preload and diameter; Shigley 9, Table 8-15, as received."""

OVERTIGHTENED = 1.5
"""Of the event ``overtighten``."""

STEEL_MODULUS = 206e9
"""Of screws, Pa."""

STEEL_EXPANSION = 11.7e-6
"""Of screws, 1/K."""

BOLT_WARMTH = 0.5
"""Rise of a head bolt over that of the head (estimate: it stands outside the flame's reach)."""

LEAST_PRELOAD = 0.5
"""Share of the preload that should still be there after a night (common practice, no source)."""

TUBE_OUT_OF_ROUND = 0.05e-3
"""Difference of the diameters of a drawn tube or a turned hole, m (common practice, no source)."""

KNURL_ROOT = 0.1e-3
"""Radius of the grooves that an insert's knurl, or a thread's run-out, leaves in a plastic, m
(estimate)."""

KNURL_DEPTH = 0.3e-3
"""Depth of those grooves, m (estimate)."""

CASE_ROOM = 2e-3
"""Room between what turns in the case and its wall, m (common practice, no source)."""

LEAST_SQUEEZE = 0.02
"""Squeeze below which a running O-ring no longer touches all round; 5 % is the least that
handbooks and model engineers fit (Gas Engine Magazine 2004)."""

MOST_SQUEEZE = 0.30
"""Squeeze above which a running O-ring rolls or tears; 25 % is the most of the seal handbooks."""

SOFT = 0.5
"""Share of its strength at 23 °C at which a material is called soft here (our own choice)."""

RETAINER_HEIGHT = 1.5
"""Height of a spring retainer over the stem's diameter (common practice, no source)."""

SEAT_DEPTH = 2e-3
"""Depth to which a valve seat's ring sits in the head, m (common practice, no source)."""

PORT_DEPTH = 2e-3
"""Depth of soft wall, m, at which an exhaust port sags: a third of 6 mm (estimate)."""

BORE_DEPTH = 0.5e-3
"""Depth of soft bore, m, that a ring digs into; over less it rides (estimate: an acrylic cylinder
ran for quite some time with little marring, press report of 2021)."""

PLUG_REACH = 1.2
"""Engaged length of a plug's thread over its diameter; 12.7 mm of M10x1 (common practice)."""

SHIELD_SCREW = 3e-3
"""Of the screws that hold a crown shield, m (common practice, no source)."""

SUPPORT_PLAY = 1e-3
"""Room between rod eye and piston bosses, both sides together, m (common practice)."""

TEST_SECONDS = 22 * 3600.0
"""Time of a compression-set test, s: ISO 815-1, as the catalog's rows."""

VALVE_LENGTHS = 3.0
"""Length of a small engine's valve over its head's diameter, from seat to cam; 2.5 to 4 (common
practice, no source)."""

STEM_WARMTH = 1 / 3
"""Rise of a stem's mean over what holds it, of that of the valve's head: it falls straight to the
guide's end, two thirds of the way, and the rest is as warm as the guide (estimate)."""
