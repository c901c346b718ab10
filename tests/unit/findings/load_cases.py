"""Cases of findings and refusals about wind, resistance and fire: a request that triggers each, and one just inside.

A piece of 1200 by 600 mm has 0.72 m2; at 1000 Pa with no internal pressure, c_pe,1 -1.4 and a factor of 1.5 it carries 1.512 kN.
"""

from typing import Any, Final

from unit.wall.survey import PLAIN, rectangle

BUILDING: Final = {"breadth_m": 20, "depth_m": 10, "height_m": 5}
EVEN: Final = {
    "kind": "peak_pressures", "peak_pressures": [{"height_m": 20, "pressure_pa": 1000}], "building": BUILDING,
    "internal_pressure": {"kind": "on_background"},
}  # fmt: skip
VELOCITY: Final = {"kind": "basic_velocity", "fundamental_velocity_m_per_s": 25, "terrain": "II", "building": BUILDING}
FRONT: Final = {"side": "front"}


def wind(building: dict[str, Any] | None = None, **changes: Any) -> dict[str, Any]:
    return {**EVEN, "building": {**BUILDING, **(building or {})}, **changes}


def cornered(offset_mm: float) -> dict[str, Any]:
    """An elevation of 4.8 m on the front whose right end is an external corner."""
    return {"face": {"side": "front", "offset_mm": offset_mm}, "right_edge": {"kind": "external_corner"}}


def gated(side: str) -> dict[str, Any]:
    """A request for a front with a gate and a closed rear; most openings are said to be on a side."""
    gate = {"id": "gate", "kind": "rectangle", "x_mm": 1000, "y_mm": 0, "width_mm": 2000, "height_mm": 2000}
    front = rectangle(id="front", face=FRONT, openings=[gate])
    dominant = {"kind": "dominant_face", "side": side, "ratio": "twice"}
    return {"wind": wind(internal_pressure=dominant), "elevations": [front, rectangle(face={"side": "rear"})]}


def falling(second_pa: float) -> dict[str, Any]:
    """A request with a pressure of 900 Pa, and another one above it."""
    rows = [
        {"height_m": height, "pressure_pa": pressure}
        for height, pressure in ((3, 900), (BUILDING["height_m"], second_pa))
    ]
    return {"wind": {"kind": "peak_pressures", "peak_pressures": rows, "building": BUILDING}}


def on(wind: dict[str, Any], **elevation: Any) -> dict[str, Any]:
    """A request for the wind on one elevation of 4800 by 2475 mm."""
    return {"wind": wind, "elevations": [rectangle(**elevation)]}


def meeting(end: str, seen_from: str = "outside", side: str = "left") -> dict[str, Any]:
    """A request for the wind on a front and another side whose left end meets an end of the front."""
    front = rectangle(id="front", face=FRONT)
    side = rectangle(id="side", width_mm=4000, face={"side": side, "seen_from": seen_from})
    return {"wind": wind(), "elevations": [front, {**side, "left_edge": {"kind": "external_corner", "to": end}}]}


def fastened(
    *, site: dict[str, Any] | None = None, category: str | None = "B", board: Any = None, **fastener: Any
) -> Any:
    """A request for fasteners of one elevation in zone D and C of the front: with wind, or with a site alone."""
    system = {**PLAIN, "board": {**PLAIN["board"], **(board or {})}, "fastener": fastener}
    made: dict[str, Any] = {"elevations": [rectangle(face={**FRONT, "offset_mm": 8000})], "system": system}
    if site is not None:
        return {**made, "site": site}
    return {**made, "wind": wind(), "substrate": {"category": category} if category else {}}


def held(**pull_out: Any) -> Any:
    """The same with resistance to pull-out."""
    return fastened(pull_out=pull_out)


LOW_HOUSE: Final = {"jurisdiction": "England", "top_storey_height_m": 3, "boundary_distance_m": 5, "use": "office"}


def sited(board: Any = None, **changes: Any) -> Any:
    return fastened(site={**LOW_HOUSE, **changes}, board=board)


def weighed(members: dict[str, Any] | None = None, **system: Any) -> Any:
    """A request for the weight of a wall with boards of 3.5 kg/m2 and adhesive in a bed: a face of 40.867 kg/m2."""
    made = {
        **PLAIN, "board": {**PLAIN["board"], "mass_kg_per_m2": 3.5}, "joint": {**PLAIN.get("joint", {}), "depth_mm": 15},
        "adhesive": {"laid": "bed", "compressed_thickness_mm": 3}, **system,
    }  # fmt: skip
    return {"elevations": [rectangle()], "system": made, "options": {"effort": "quick"}, **(members or {})}


def thin(thickness: float) -> Any:
    """Slips of 1600 kg/m3 in joints that are 5 mm deep."""
    slip = {**PLAIN["slip"], "thickness_mm": thickness, "density_kg_per_m3": 1600}
    return weighed(slip=slip, joint={**PLAIN.get("joint", {}), "depth_mm": 5})


def beaded(width: float = 20, pressed: float = 3, **system: Any) -> Any:
    """Triangular beads 10 mm high."""
    bead = {"bead_triangle": {"width_mm": width, "height_mm": 10}, "compressed_thickness_mm": pressed}
    return weighed(adhesive=bead, **system)


def palletised(mass: float) -> Any:
    pallets = [{"role": "slips", "mass_kg": mass, "length_m": 1, "width_m": 1}]
    return weighed({"handling": {"pallets": pallets, "scaffold": {"kind": "load", "load_kn_per_m2": 1.9613}}})


def limited(mass: float) -> Any:
    return weighed({"mass_limits": [{"name": "assessment", "of": "face", "mass_kg_per_m2": mass}]})


def linked(resistance: float) -> Any:
    links = [{"link": "adhesive", "action": "weight", "resistance_kn_per_m2": resistance, "gamma_m": 1}]
    return weighed({"links": links})


EVERY_LINK: Final = [
    {"link": link, "action": action, "resistance_kn_per_m2": 100, "gamma_m": 2}
    for link in ("slip_bond", "adhesive", "board_face", "board_core", "fastener_shank", "substrate", "structure")
    for action in ("suction", "weight")
]


def whole_path(*links: dict[str, Any]) -> Any:
    """Every link declared but those left out, with wind and fasteners that are assessed."""
    fastener = {"pull_out": {"characteristic_kn": 2}, "pull_through": {"panel_kn": 2, "joint_kn": 2, "gamma_m": 2}}
    made = weighed({"links": list(links), "wind": wind(), "substrate": {"category": "B"}}, fastener=fastener)
    return {**made, "elevations": [rectangle(face={**FRONT, "offset_mm": 8000})]}


NO_MASS: Final = {
    name: value for name, value in PLAIN["board"].items() if name not in ("mass_kg_per_m2", "density_kg_per_m3")
}


def corrected(**fastener: Any) -> Any:
    """A job with a U-value whose corrections name fasteners."""
    layer = {"kind": "solid", "name": "insulation", "thickness_mm": 100, "conductivity_w_per_m_k": 0.034}
    return {
        "elevations": [rectangle()], "system": {**PLAIN, "fastener": fastener}, "options": {"effort": "quick"},
        "build_up": {"element": "wall", "layers": [layer]},
        "corrections": {"fasteners": {"kind": "declared", "chi_w_per_k": 0.001, "count_per_m2": 4}},
    }  # fmt: skip


def uneven(gap: float) -> Any:
    return {**fastened(), "substrate": {"category": "B", "flatness": {"spacing_m": 2.5, "gap_mm": gap}}}


def loading(area: float) -> Any:
    """Boards of 0.72 m2: any area over 1 m2 is larger."""
    return {**held(characteristic_kn=1), "wind": wind(loaded_area_m2=area)}


def beside_a_door(pier: float) -> Any:
    """A pier with one column between a door and an end; masonry is to have 100 mm on either side of a fastener."""
    opening = {"id": "w", "kind": "rectangle", "x_mm": pier, "y_mm": 0, "width_mm": 1200, "height_mm": 2400}
    made = fastened(pull_out={"characteristic_kn": 5})
    ends = {f"{side}_edge": {"kind": "abutment"} for side in ("left", "right")}
    return {**made, "elevations": [rectangle(height_mm=2400, face=FRONT, openings=[opening], **ends)]}


LOAD_FINDINGS: Final = {
    "wind-plan-not-a-box": (
        "wind",
        on(wind(), face=FRONT, right_edge={"kind": "internal_corner"}),
        on(wind(), face=FRONT, right_edge={"kind": "external_corner"}),
    ),
    "wind-view-unclear": ("wind", meeting("front:left"), meeting("front:left", "inside")),
    "substrate-edge-close": ("fasteners", beside_a_door(149), beside_a_door(150)),
    "fire-class-of-board": (
        "fasteners",
        sited(board={"reaction_to_fire": "A2"}),
        sited(board={"reaction_to_fire": "B"}),
    ),
    "pull-tests-scarce": (
        "fasteners",
        held(tests_kn=[1.0, 1.1] * 7, rule="prediction"),
        held(tests_kn=[1.0, 1.1] * 8, rule="prediction"),
    ),
    "loaded-area-large": ("fasteners", loading(1.01), loading(1)),
    # DIN 18202 row 5 at 2.5 m: 13 mm.
    "substrate-uneven": ("fasteners", uneven(13.1), uneven(13)),
    "fasteners-given-twice": ("take_off", corrected(chi_w_per_k=0.002), corrected()),
    "board-mass-missing": ("weights", weighed(board=NO_MASS), weighed()),
    "density-unusual": (
        "weights",
        weighed(slip={**PLAIN["slip"], "density_kg_per_m3": 2301}),
        weighed(slip={**PLAIN["slip"], "density_kg_per_m3": 2300}),
    ),
    # Slips of 20 mm before beads pressed to 3 mm.
    "pointing-too-deep": ("weights", beaded(joint={"depth_mm": 23.1}), beaded(joint={"depth_mm": 23})),
    # A slip of 65 mm before a gap of 2 mm takes 130 mm2: a triangle of 26.1 x 10 or 26 x 10 mm.
    "beads-overfull": ("weights", beaded(26.1, 2), beaded(26, 2)),
    # A quarter of a gap of 65 x 2 mm is 32.5 mm2.
    "coverage-low": ("weights", beaded(6.4, 2), beaded(6.5, 2)),
    # 15 mm at 1600 kg/m3, pointing of 5 mm and adhesive of 3 mm have 26.01 kg/m2; each mm of slip adds 1.325 kg/m2.
    "mass-above-scope": ("weights", thin(18.1), thin(18)),
    "tile-scope": ("weights", thin(15.1), thin(15)),
    "mass-over-limit": ("weights", limited(40.8), limited(40.9)),
    # 200 kg on a square metre are 1.96133 kN.
    "scaffold-load": ("weights", palletised(200), palletised(199.9)),
    # A pack of 50 slips weighs 26.5525 kg.
    "piece-heavy": (
        "weights",
        weighed({"handling": {"lifting_limit_kg": 26.5}}, packs={"slip_count": 50}),
        weighed({"handling": {"lifting_limit_kg": 26.6}}, packs={"slip_count": 50}),
    ),
    # 40.867 kg/m2 at 9.80665 m/s2, times 1.35: 0.54104 kN/m2, on the backs of slips, 0.828148 of the face: 0.65331.
    "link-overloaded": ("weights", linked(0.6533), linked(0.6534)),
    "load-path-incomplete": ("weights", whole_path(*EVERY_LINK[1:]), whole_path(*EVERY_LINK)),
    "wind-face-unknown": ("wind", on(wind()), on(wind(), face=FRONT)),
    "wind-directions-left-out": (
        "wind",
        {"wind": wind(directions=["front", "right", "rear"])},
        {"wind": wind(directions=["front", "right", "rear", "left"])},
    ),
    # Wind on the front and the rear: b 20, h 5, e = 10, zone A 2 m from either end; between them B from 4 m on.
    "zone-a-whole-face": (
        "wind",
        on(wind({"depth_m": 4}), width_mm=4000, face={"side": "right"}),
        on(wind({"depth_m": 4.1}), width_mm=4100, face={"side": "right"}),
    ),
    # Slack of 0.5 m: the front is 20 m long.
    "wind-corner-misplaced": ("wind", on(wind(), **cornered(14_690)), on(wind(), **cornered(14_700))),
    "wind-sides-apart": ("wind", meeting("front:right", side="rear"), meeting("front:right", side="right")),
    "dominant-face-closed": ("wind", gated("rear"), gated("front")),
    "building-low": ("wind", on(wind({"height_m": 2.46}), face=FRONT), on(wind({"height_m": 2.47}), face=FRONT)),
    "pressure-falls": ("wind", falling(899.9), falling(900)),
    # The elevation is 2.475 m high.
    "wind-below-ground": (
        "wind",
        on(wind({"height_m": 6}) | {"ground_y_mm": 2475}, face=FRONT),
        on(wind({"height_m": 6}) | {"ground_y_mm": 2474}, face=FRONT),
    ),
    "parapet-wind": (
        "wind",
        on(wind(), face=FRONT, parapet_from_mm=2474),
        on(wind(), face=FRONT, parapet_from_mm=2475),
    ),
    # Levelling is 10 mm where it is not given.
    "levelling-short": ("fasteners", uneven(10.1), uneven(10)),
    "resistance-missing": ("fasteners", fastened(), held(characteristic_kn=1)),
    "substrate-unknown": (
        "fasteners",
        fastened(category=None, pull_out={"characteristic_kn": 1}),
        held(characteristic_kn=1),
    ),
    "resistance-other-substrate": (
        "fasteners",
        held(characteristic_kn=1, category="A"),
        held(characteristic_kn=1, category="B"),
    ),
    "resistance-unusual": ("fasteners", held(characteristic_kn=10.1), held(characteristic_kn=10)),
    "pull-tests-impossible": (
        "fasteners",
        held(tests_kn=[*[0.9] * 14, 20.1]),
        held(tests_kn=[*[0.9] * 14, 20]),
    ),
    "pull-tests-few": ("fasteners", held(tests_kn=[1.0] * 14), held(tests_kn=[1.0] * 15)),
    # Three tests, k_n = 3.372: mean 1 with a standard deviation of 0.3 gives -0.01; of 0.29 0.02.
    "pull-tests-scatter": (
        "fasteners",
        held(tests_kn=[0.7, 1.0, 1.3], rule="prediction"),
        held(tests_kn=[0.71, 1.0, 1.29], rule="prediction"),
    ),
    # Zone C or E of the front: 0.5 x 1000 x 1.5 = 0.75 kN/m2, 0.54 kN on 0.72 m2. No board holds two hundred fasteners.
    "wind-need-unmet": ("fasteners", held(characteristic_kn=0.005), held(characteristic_kn=0.5)),
    "fire-insulation": ("fasteners", sited(board={"reaction_to_fire": "B"}), sited(board={"reaction_to_fire": "A2"})),
    "fire-height-reminder": ("fasteners", sited(top_storey_height_m=11), sited(top_storey_height_m=10.9)),
    "fire-height-stop": ("fasteners", sited(top_storey_height_m=18), sited(top_storey_height_m=17.9)),
    "fire-site-unknown": ("fasteners", sited(jurisdiction="somewhere"), sited(jurisdiction="gb-eng")),
    "fire-boundary": ("fasteners", sited(boundary_distance_m=0.99), sited(boundary_distance_m=1)),
    "fire-use": ("fasteners", sited(use="flats"), sited(use="offices")),
    "fire-thickness": (
        "fasteners",
        sited(board={"thickness_mm": 301}, jurisdiction="Germany"),
        sited(board={"thickness_mm": 300}, jurisdiction="Germany"),
    ),
}
"""Room, request that triggers, request just inside, by code."""

LOAD_REFUSALS: Final = {
    "board-mass-contradictory": (
        "weights",
        weighed(board={**PLAIN["board"], "mass_kg_per_m2": 3.54, "density_kg_per_m3": 35}),
        weighed(board={**PLAIN["board"], "mass_kg_per_m2": 3.53, "density_kg_per_m3": 35}),
    ),
    "pallet-contradictory": (
        "weights",
        weighed({"handling": {"pallets": [{"role": "slips", "length_m": 1, "width_m": 1}]}}),
        weighed({"handling": {"pallets": [{"role": "slips", "mass_kg": 1, "length_m": 1, "width_m": 1}]}}),
    ),
    "national-choice-contradictory": (
        "wind",
        {"wind": {**VELOCITY, "national_choice": "ireland"}},
        {"wind": VELOCITY},
    ),
    "probability-contradictory": (
        "wind",
        {"wind": {**VELOCITY, "probability_factor": 0.99, "exceedance": {"annual_fraction": 0.1}}},
        {"wind": {**VELOCITY, "probability_factor": 1, "exceedance": {"annual_fraction": 0.1}}},
    ),
    "building-too-small": (
        "wind",
        on(wind({"breadth_m": 4.2}), face=FRONT),
        on(wind({"breadth_m": 4.3}), face=FRONT),
    ),
}  # fmt: skip
"""The same by slug."""
