"""Generated loads for the walls of ``test_valid_walls``: wind sites, faces of the building, substrates and resistances.

Valid by construction: the building is larger than any of those walls, no more than five times as high as it is deep, and
given pressures reach its top.
"""

from hypothesis import strategies as st

SIDES = ["front", "right", "rear", "left"]
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
    }  # fmt: skip


def substrates() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {"category": CATEGORIES},
        optional={
            "thickness_mm": st.sampled_from([100, 140, 240, 365]),
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
            "lengths_mm": st.lists(st.sampled_from([115.0, 135, 155, 175, 195, 215, 255]), unique=True),
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


@st.composite
def on_sides(draw: st.DrawFn, wall: dict) -> dict:
    """The wall with its elevations on sides of the building, some of them on none."""
    faces = [
        face | {"face": {"side": draw(st.sampled_from(SIDES)), "offset_mm": draw(st.sampled_from([0, 1500.5]))}}
        if draw(st.integers(0, 4))
        else face
        for face in wall["elevations"]
    ]
    return wall | {"elevations": faces}


@st.composite
def loaded(draw: st.DrawFn, walls: st.SearchStrategy[dict]) -> dict:
    """A wall with wind, substrate, factors and fasteners that carry something; each may be left out."""
    made = draw(walls.flatmap(on_sides))
    wind, substrate = draw(st.none() | wind_sites()), draw(st.none() | substrates())
    system = made["system"] | ({"fastener": draw(fasteners())} if draw(st.integers(0, 3)) else {})
    factors = draw(st.sampled_from([{}, {"wind": 1.4, "weight": 1.2}]))
    return made | {"wind": wind, "substrate": substrate, "system": system, "partial_factors": factors}
