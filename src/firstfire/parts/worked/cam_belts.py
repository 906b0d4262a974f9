"""Toothed belts of the cam drive, worked out by hand: geometry, equilibrium, makers' factors."""

from __future__ import annotations

from firstfire.parts.failure import Example

JUMPS = Example(
    by=(
        "Cams: at half its lift of 5 mm the exhaust valve is pressed by 30 N + 4 N/mm × 2.5 mm and "
        "2 bar on 18 mm, 50.9 N: 90.9 N; steepest 1.875 × 2.5 mm a radian of the crank: 0.4261 N·m,"
        " more than the inlet's 0.299. Pulleys of 12 and 24 teeth of 3 mm: 11.459 and 22.918 mm, "
        "20.5 mm apart: arcsin(11.459/41) = 0.2833, wrapped π - 0.5665 = 2.575, 12 × 2.575/2π = "
        "4.92 teeth: four whole ones leave 1 - 0.2 × 2 = 0.6. Two belts: 2 × 426.1/11.459/2 = "
        "37.18 N each against 2 × 31 N × 0.6 = 37.2."
    ),
    demand=37.1812,
    capacity=37.2,
    said={
        "valves.exhaust.spring_preload": "30 N",
        "valves.exhaust.spring_rate": "4 N/mm",
        "valves.exhaust.lift": "5 mm",
        "valves.exhaust.head_diameter": "18 mm",
        "valves.inlet.spring_preload": "20 N",
        "valves.inlet.spring_rate": "3 N/mm",
        "valves.inlet.lift": "4 mm",
        "valves.inlet.head_diameter": "18.5 mm",
        "cam_drive.kind": "belt",
        "cam_drive.teeth_crank": "12",
        "cam_drive.teeth_cam": "24",
        "cam_drive.pitch": "3 mm",
        "cam_drive.centre_distance": "20.5 mm",
        "cam_drive.count": "2",
        "cam_drive.tension": "31 N",
    },
)

TEARS = Example(
    by=(
        "Pulleys of 18 and 36 teeth of 2 mm, 190 mm apart: 11.459 mm, nine teeth in mesh less a "
        "little: all of it. Three belts: 2 × 370 N·mm/11.459/3 = 21.53 N each; rated 16 N/mm × 6.5 "
        "mm = 104 N."
    ),
    demand=21.5257,
    capacity=104.0,
    said={
        "cam_drive.kind": "belt",
        "cam_drive.teeth_crank": "18",
        "cam_drive.teeth_cam": "36",
        "cam_drive.pitch": "2 mm",
        "cam_drive.centre_distance": "190 mm",
        "cam_drive.count": "3",
        "cam_drive.width": "6.5 mm",
    },
    given={"cam_torque_at_crank": 0.37, "belt_pull_a_width": 16e3},
)

TEARS_WITH_FEW_TEETH = Example(
    by=(
        "Pulleys of 10 and 20 teeth of 5 mm, 33 mm apart: 15.915 and 31.831 mm, arcsin(15.915/66) "
        "= 0.2435, 10 × (π - 0.487)/2π = 4.22 teeth: 0.6. One belt: 2 × 370/15.915 = 46.50 N "
        "against 16 N/mm × 6.5 mm × 0.6 = 62.4."
    ),
    demand=46.4956,
    capacity=62.4,
    said={
        "cam_drive.kind": "belt",
        "cam_drive.teeth_crank": "10",
        "cam_drive.teeth_cam": "20",
        "cam_drive.pitch": "5 mm",
        "cam_drive.centre_distance": "33 mm",
        "cam_drive.count": "1",
        "cam_drive.width": "6.5 mm",
    },
    given={"cam_torque_at_crank": 0.37, "belt_pull_a_width": 16e3},
)
