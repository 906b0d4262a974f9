"""Numbers the model needs and no engine file says: each with what it stands on and its spread.

Contact and film figures are handbook ranges; shares and sizes are common practice without a
source. They are named here once, so that none hides in the middle of a formula.

References
----------
F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Tables 1.1, 3.1
and A.11 (from memory).
"""

from __future__ import annotations

CONTACT_HELD = 5e-4
"""Metal lightly screwed on plastic, m² K/W; 2e-4 to 2e-3 (from memory, low confidence)."""

CONTACT_BONDED = 1e-4
"""Metal glued on plastic by 20 to 30 µm of resin, m² K/W; 0.5e-4 to 2e-4 (common practice)."""

CONTACT_PRESSED = 2e-4
"""A tube pressed into a print, m² K/W; 1e-4 to 1e-3 (common practice, no source)."""

CONTACT_METAL_FIT = 3e-5
"""Metal pressed into metal, m² K/W; 1e-5 to 1e-4 (iron in aluminium: 45 kW/(m² K) with a handbook,
J. H. Lienhard, A Heat Transfer Textbook, Table 2.1; aluminium at 10 MPa 2e-5 to 4e-5, Incropera 6
Table 3.1; both from memory)."""

CONTACT_METAL_HELD = 1e-4
"""Metal screwed on metal, dry, m² K/W; 5e-5 to 3e-4 (Incropera 6 Table 3.1, from memory)."""

CONTACT_SEATED = 1e-3
"""A seat ring pressed into a head, m² K/W; 2e-4 to 2e-3 (common practice, no source)."""

CONTACT_IN_METAL = 1e-4
"""A metal pin fitted or cross-pinned in metal, m² K/W; 0.3e-4 to 3e-4 (Incropera 6 Table 3.1)."""

PLAIN_FILM = 5000.0
"""Oil and air mist of some 20 µm between a pin and its eye, W/(m² K); 2000 to 10 000 (its
conductivity, 0.1 W/(m K), over its width)."""

BUSH = (60.0, 8800.0, 380.0)
"""Bronze of a bush: W/(m K), kg/m³, J/(kg K) (catalog row ``bronze``)."""

BUSH_WALL = 1.5e-3
"""Wall of a bush, m (common practice: ISO 4379, 10 to 15 mm bores have 2 mm or a little less)."""

SCREW_DIAMETER = 3e-3
"""Of the screws that hold a crown shield, m (common practice, no source)."""

SCREW_CONDUCTIVITY = 45.0
"""Of such steel screws, W/(m K); 15 of stainless ones (Incropera 6 Table A.1, from memory)."""

SCREW_HEAT = 3.8e6
"""Of steel, J/(m³ K)."""

VALVE_ON_SEAT = 3000.0
"""A closed valve on its seat, mean over the cycle, W/(m² K); 1000 to 6000 (from memory)."""

RING_ON_OILED_BORE = 15000.0
"""A metal ring on an oiled bore, W/(m² K): 0.13 W/(m K) over a film of 3 to 25 µm (from memory:
half or more of a light-metal piston's heat leaves by its rings). Dry as a valve on its seat."""

AIR_CONDUCTIVITY = 0.033
"""Air in gaps at about 120 °C, W/(m K): Incropera 6 Table A.4."""

CREVICE_CONDUCTIVITY = 0.045
"""Air, blow-by and oil mist between skirt and bore, W/(m K); 0.03 to 0.13 (oil filled)."""

CRANKCASE_FILM = {"dry": 40.0, "grease": 40.0, "oil_in_fuel": 60.0, "drip": 80.0, "splash": 150.0}
"""Moving air and oil under a running piston, W/(m² K), half to twice (common practice)."""

OILED_CREVICE = 0.09
"""The same between an oiled skirt and its bore, W/(m K): half filled with oil; 0.05 to 0.13."""

OIL_OF_SWEPT = {"dry": 0.0, "grease": 0.1, "oil_in_fuel": 0.1, "drip": 0.3, "splash": 3.0}
"""Oil in the case over the swept volume; splash: 0.6 litres in engines of 160 to 200 cm³ (owner's
manuals), the rest common practice."""

OIL_HEAT = 1.8e6
"""Heat of a volume of oil, J/(m³ K): 870 kg/m³ and 2.1 kJ/(kg K), Incropera 6 Table A.5."""

CASE_AIR_HEAT = 1.2e3
"""Heat of a volume of air, J/(m³ K)."""

FLOODED = ("splash", "drip", "oil_in_fuel")
"""Lubrication that carries the bearings' heat into the case."""

STILL_FILM = 8.0
"""Air in a standing crankcase, W/(m² K); 4 to 15 (free air, Incropera 6 Table 1.1)."""

WATER_FILM = 800.0
"""Water in a jacket that circulates slowly, W/(m² K); 300 to 3000 (Incropera 6 Table 1.1)."""

PORT_FILM = 80.0
"""Fresh charge along the back of the inlet valve, W/(m² K), half to twice (common practice)."""

EMISSIVITY_PLASTIC = 0.9
"""Plastics and paint; Incropera 6 Table A.11 (from memory)."""

EMISSIVITY_METAL = 0.2
"""Drawn or sawn metal, a little oxidised; 0.05 to 0.4 (from memory)."""

CHAR_RATIO = 0.5
"""Conductivity of charred plastic over that of the plastic; 0.2 to 1 (porous char 0.05 to
0.2 W/(m K), partly made up by radiation across its pores; no source for these plastics)."""

CHAR_KEPT = 0.1e-3
"""Char that stays on a face the fire sweeps, m; 0.03 to 0.5: what is thicker is blown or burned
away (estimate; no source for engines. In fires char of wood stays and the front moves 0.65 mm a
minute, EN 1995-1-2, Table 3.1; swept by hot gas it goes as fast as heat reaches it)."""

DECOMPOSITION_HEAT = 1.0e6
"""Taken up as a plastic turns to char and gas, beyond warming it, J/kg; 0.4 to 1.6: heats of
gasification (nylon 2.4, PMMA 1.6, PVC 2.5, pine 1.8 MJ/kg: A. Tewarson, SFPE Handbook of Fire
Protection Engineering, from memory) less what warms it to decomposition."""

BLOW_BY_TO_PISTON = 0.5
"""Share of blow-by's heat given to the lands, the rest to the bore (0.3 to 0.7): the gap is so
narrow that the gas leaves at wall temperature (about ten transfer units)."""

TOP_BAND = 0.25
"""Upper part of the stroke taken as one band in a bore that conducts badly."""

POCKET_ROOF = 1.4
"""Roof over the pocket of side valves over the valves' own faces (common practice, no source)."""

PORT_WALL = 6e-3
"""Wall round the exhaust port, m (common practice, no source)."""

PORT_LENGTH = 1.5
"""Length of the exhaust port over its bore (common practice, no source)."""

VALVE_HEAD_THICKNESS = 0.12
"""Mean thickness of a valve's head over its diameter (common practice, no source)."""

METAL = 5.0
"""A wall material that conducts more than this, W/(m K), is treated as metal."""

SHOWN = 1e-3
"""Thickness that a lump without one of its own is shown with, m."""
