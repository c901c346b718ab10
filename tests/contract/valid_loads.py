"""Generated loads for the walls of ``test_valid_walls``: wind sites, faces of the building, substrates and resistances.

Valid by construction: the building is larger than any of those walls, no more than five times as high as it is deep, given
pressures reach its top, and a length of fastener is held that is long enough and does not go through the wall.
"""

from hypothesis import strategies as st

LINKS = ["slip_bond", "adhesive", "board_face", "board_core", "board_bond", "fastener_shank", "substrate", "structure"]
SIDES = ["front", "right", "rear", "left"]
LENGTHS = [float(length) for length in range(75, 336, 20)]
"""Every length that a board of 40 to 160.5 mm and what is behind it may ask for."""
CATEGORIES = st.sampled_from([None, "A", "B", "C", "D", "E"])


@st.composite
def wind_sites(draw: st.DrawFn) -> dict:
    """Wind by any source on a building of 16 to 60 m, in choices of any country that takes that source."""
    building = {
        "breadth_m": draw(st.floats(18, 60)),
        "depth_m": draw(st.floats(18, 60)),
        "height_m": draw(st.sampled_from([12, 14.5, 17.9, 40, 75])),
    }
    made = {
        "building": building,
        "loaded_area_m2": draw(st.sampled_from([0.2, 1, 3.7, 10, 50])),
        "structural_factor": draw(st.sampled_from([1, 0.9])),
        "ground_y_mm": draw(st.sampled_from([0, -150, -900.5])),
        "strip_height_m": draw(st.sampled_from([1, 10])),
        "internal_pressure": draw(internal_pressures()),
    }
    return made | draw(st.one_of(basic_velocities(), peak_pressures(building["height_m"]), german_annexes(building)))


def internal_pressures() -> st.SearchStrategy[dict]:
    return st.one_of(
        st.sampled_from([{"kind": "not_estimated"}, {"kind": "on_background"}]),
        st.builds(lambda value: {"kind": "declared", "coefficient": value}, st.floats(-0.5, 0.8)),
        st.builds(
            lambda side, ratio: {"kind": "dominant_face", "side": side, "ratio": ratio},
            st.sampled_from(SIDES),
            st.sampled_from(["twice", "three_times"]),
        ),
    )


def basic_velocities() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {
            "kind": st.just("basic_velocity"),
            "fundamental_velocity_m_per_s": st.floats(18, 40),
            "terrain": st.sampled_from(["0", "I", "II", "III", "IV"]),
        },
        optional={
            "national_choice": st.sampled_from(["recommended", "other_annex"]),
            "direction_factors": st.fixed_dictionaries({}, optional=dict.fromkeys(SIDES, st.floats(0.7, 1))),
            "exceedance": st.fixed_dictionaries({"annual_fraction": st.floats(0.005, 0.2)}),
            "altitude": st.fixed_dictionaries({"altitude_m": st.floats(0, 400), "height_m": st.floats(0, 50)}),
            "orography_factor": st.floats(1, 1.4),
            "air_density_kg_per_m3": st.just(1.226),
        },
    )


@st.composite
def peak_pressures(draw: st.DrawFn, height: float) -> dict:
    """Rows in rising height up to the top of the building."""
    between = sorted(draw(st.sets(st.floats(1, height - 0.5), max_size=4)))
    return {
        "kind": "peak_pressures",
        "national_choice": draw(
            st.sampled_from(["recommended", "united_kingdom", "ireland", "germany", "other_annex"])
        ),
        "peak_pressures": [{"height_m": at, "pressure_pa": draw(st.floats(300, 2500))} for at in (*between, height)],
    }


@st.composite
def german_annexes(draw: st.DrawFn, building: dict) -> dict:
    """Any zone; the table for low buildings, inland also the profile."""
    low = building["height_m"] <= 25
    method = draw(st.sampled_from(["simplified", "inland_profile"])) if low else "inland_profile"
    zone = draw(st.integers(1, 4))
    coast = ["coast"] if zone > 1 and method == "simplified" else []
    return {
        "kind": "german_annex", "zone": zone, "region": draw(st.sampled_from(["inland", *coast])), "method": method,
        "altitude_m": draw(st.sampled_from([0, 300, 850, 1100])),
    }  # fmt: skip


def substrates() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {"category": CATEGORIES},
        optional={
            "thickness_mm": st.sampled_from([240, 365]),
            "flatness": st.fixed_dictionaries({"spacing_m": st.floats(0.1, 15), "gap_mm": st.floats(0, 60)}),
            "render_mm": st.floats(0, 40),
            "levelling_mm": st.floats(0, 30),
            "cover_mm": st.floats(0, 40),
        },
    )


def pull_outs() -> st.SearchStrategy[dict]:
    """Declared, or from few or many tests by any rule, duplicates among them."""
    loads = st.lists(st.floats(0.4, 4) | st.just(1.2), max_size=25)
    return st.fixed_dictionaries(
        {"characteristic_kn": st.none() | st.floats(0.2, 1.5), "tests_kn": loads},
        optional={
            "category": CATEGORIES,
            "rule": st.sampled_from(["insulation_fixing", "general_fixing", "prediction", "tolerance"]),
            "confidence_fraction": st.sampled_from([0.75, 0.9, 0.95]),
            "gamma_m": st.sampled_from([1.5, 2, 3]),
        },
    )


def pull_throughs() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {"panel_kn": st.floats(0.2, 1.2), "gamma_m": st.sampled_from([1.5, 2])},
        optional={"joint_kn": st.floats(0.1, 0.6), "joint_within_mm": st.floats(0, 200)},
    )


def fasteners() -> st.SearchStrategy[dict]:
    """Common patterns, with or without what they carry and how long they are."""
    return st.fixed_dictionaries(
        {"columns_count": st.integers(2, 5), "every_nth_course": st.integers(1, 5)},
        optional={
            "edge_distance_mm": st.sampled_from([0, 50, 75]),
            "min_spacing_mm": st.sampled_from([60, 100, 150]),
            "substrate_edge_distance_mm": st.sampled_from([50, 100, 150]),
            "chi_w_per_k": st.sampled_from([0.001, 0.004]),
            "embedment_mm": st.sampled_from([25, 40, 65]),
            "hole_beyond_mm": st.sampled_from([5, 10]),
            "lengths_mm": st.sampled_from([[], LENGTHS]),
            "pull_out": pull_outs(),
            "pull_through": pull_throughs(),
        },
    )


def sites() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {},
        optional={
            "jurisdiction": st.sampled_from(["England", "Germany", "unspecified", "Moon"]),
            "top_storey_height_m": st.sampled_from([0, 10.9, 11, 18, 30.5]),
            "boundary_distance_m": st.sampled_from([0, 0.9, 1, 4]),
            "use": st.sampled_from(["dwelling", "office", "hotel"]),
        },
    )


def proof_tests() -> st.SearchStrategy[dict]:
    failures = st.lists(
        st.builds(lambda count: {"elevation": "front", "failures_count": count}, st.just(1)), max_size=2
    )
    return st.fixed_dictionaries(
        {}, optional={"basis": st.sampled_from(["fewer_heavier", "more_lighter"]), "failures": failures}
    )


def links() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {
            "link": st.sampled_from(LINKS),
            "action": st.sampled_from(["suction", "weight"]),
            "resistance_kn_per_m2": st.floats(0.1, 300),
            "gamma_m": st.sampled_from([1, 2.5]),
        }
    )


def pallets() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {
            "role": st.sampled_from(["slips", "corner_slips", "boards", "mortar", "adhesive"]),
            "mass_kg": st.floats(10, 1500),
            "length_m": st.floats(0.4, 2),
            "width_m": st.floats(0.4, 2),
        }
    )


def handlings() -> st.SearchStrategy[dict]:
    scaffolds = st.sampled_from(
        [
            {"kind": "load_class", "load_class": 1},
            {"kind": "load_class", "load_class": 6},
            {"kind": "load", "load_kn_per_m2": 2},
        ]
    )
    return st.fixed_dictionaries(
        {"pallets": st.lists(pallets(), max_size=2)},
        optional={"lifting_limit_kg": st.floats(5, 40), "scaffold": scaffolds},
    )


def weights() -> st.SearchStrategy[dict]:
    """Members about weights, each of which may be left out."""
    limit = {
        "name": st.just("assessment"),
        "of": st.sampled_from(["face", "cladding"]),
        "mass_kg_per_m2": st.floats(10, 90),
    }
    return st.fixed_dictionaries(
        {},
        optional={
            "handling": handlings(),
            "mass_limits": st.lists(st.fixed_dictionaries(limit), max_size=2),
            "links": st.lists(links(), max_size=4, unique_by=lambda link: (link["link"], link["action"])),
            "supplementary_adhesive": st.booleans(),
            "bonding_kg_per_m2": st.floats(1, 8),
            "gravity_m_per_s2": st.just(10),
        },
    )


@st.composite
def on_sides(draw: st.DrawFn, wall: dict) -> dict:
    """The wall with its elevations on sides of the building, some of them on none."""
    faces = [
        face
        | {
            "face": {
                "side": draw(st.sampled_from(SIDES)),
                "offset_mm": draw(st.sampled_from([0, 1500.5])),
                "seen_from": draw(st.sampled_from(["outside", "inside"])),
            }
        }
        if draw(st.integers(0, 4))
        else face
        for face in wall["elevations"]
    ]
    return wall | {"elevations": faces}


@st.composite
def loaded(draw: st.DrawFn, walls: st.SearchStrategy[dict]) -> dict:
    """A wall with wind, substrate, factors, boards that weigh and fasteners that carry something; each may be left out."""
    made = draw(walls.flatmap(on_sides))
    wind, substrate = draw(st.none() | wind_sites()), draw(st.none() | substrates())
    mass = draw(st.sampled_from([{}, {"mass_kg_per_m2": 4.5}, {"density_kg_per_m3": 35}]))
    system = made["system"] | {"board": made["system"]["board"] | mass}
    if draw(st.integers(0, 3)):
        system["fastener"] = draw(fasteners())
    factors = draw(st.sampled_from([{}, {"wind": 1.4, "weight": 1.2}]))
    return made | {"wind": wind, "substrate": substrate, "system": system, "partial_factors": factors}
