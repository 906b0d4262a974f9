"""What the engine file has no number for, drawn by plain drafting convention.

Nothing here is judged or computed with: change a number and only the picture changes. All
lengths in mm unless they are shares.
"""

from __future__ import annotations

# Head and chamber
CHAMBER_CLEAR = 1.0  # chamber's edge outside the valve heads
LEAST_CHAMBER = 0.8  # a chamber is drawn at least this deep, so that it can be seen
PORT_RISE = 0.2  # straight port above the seat, in throats
PORT_ROOF = 3.5  # wall above a port
SEAT_DEEP = 0.18  # height of a seat ring, in valve heads
SEAT_WALL = 1.5  # its width outside the valve's head, where the bridge lets it
GUIDE_WALL = 1.6  # wall of a valve guide
GUIDE_ABOVE = 1.5  # guide standing out of the head, under the spring

# Screws
WASHER = 0.2  # thickness of a washer under a screw's head, in thread diameters

# Valves
RIM = 0.08  # height of a valve's rim, in heads
TULIP = 0.30  # height of the hollow under a valve's head, in heads
TIP = 1.2  # stem standing out of the retainer
RETAINER = 1.8  # height of a retainer
COILS = 5.0  # coils that work
SPRING_MEAN = 0.62  # mean diameter of a spring, in valve heads
SPRING_SHEAR = 79e9  # Pa, shear modulus of spring steel: sets the wire from the rate
SPRING_SPARE = 1.15  # lift a spring has room for, in lifts
SUCTION_LATE = 50.0  # degrees after bottom centre at which a suction valve is drawn shut
CAM_SHAFT = 0.55  # radius of a cam shaft, in base circles
TAPPET = 3.0  # height of the flat, roller or finger between cam and stem

# Plug (behind the section, between the valves), in thread diameters
PLUG_HEX = 0.7
PLUG_INSULATOR = 1.5
PLUG_TERMINAL = 0.5
PLUG_NOSE = 1.5  # mm that the electrodes stand out into the chamber

# Body and case
FLANGE = 0.16  # height of a body's flange, in bores
CASE_GAP = 2.5  # air between what turns and the case
COUNTERWEIGHT_GAP = 1.5  # air between counterweight and skirt or case
COUNTERWEIGHT_SPREAD = 62.0  # degrees to each side
SEAT_RING = 2.0  # case around a bearing that counts as its seat

# Pipes
PIPE_WALL = 1.5
PIPE_SHOWN = 12.0  # a pipe longer than this is broken off
CARBURETTOR = 1.25  # length of what meters the fuel, in throttle bores

# Along the crank
BESIDE = 2.0  # air between parts that turn beside the case
BALL = 0.6  # ball of a bearing, in gaps between its rings' middles
BLADE_SHOWN = 0.22  # share of a propeller's blade that is drawn

# Dimensions
COLUMN_GAP = 5.0  # paper mm from the drawing to the words
LINE_GAP = 6.0  # paper mm from a part to its dimension line
ROW = 4.6  # paper mm from one line of words to the next
