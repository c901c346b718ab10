"""Generated build-ups, climates and sections: questions about heat and moisture that must be answered.

Valid by construction: every layer says how it passes vapour, air is never wetter than saturated, rectangles are cut from one grid and
every stretch of the outline has one boundary, details fit the wall that they are drawn from.
"""

from typing import Any

from hypothesis import strategies as st

CONDUCTIVITY = st.floats(0.02, 3)
THICKNESS = st.floats(1, 400)


def _solids() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {
            "kind": st.just("solid"),
            "name": st.just("layer"),
            "thickness_mm": THICKNESS,
            "conductivity_w_per_m_k": CONDUCTIVITY,
        }
    )


def _airs() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {"kind": st.just("air"), "thickness_mm": st.floats(1, 300), "ventilation": st.just("none")}
    )


def _converted() -> st.SearchStrategy[dict]:
    """A declared conductivity brought to another temperature, by a coefficient of its own or of a table."""
    coefficient = st.sampled_from([{"temperature_coefficient_per_k": 0.004}, {"material": "expanded-polystyrene"}])
    return st.builds(
        lambda solid, given, temperature: {
            "kind": "declared",
            "name": "insulation board",
            "thickness_mm": solid["thickness_mm"],
            "conductivity_declared_w_per_m_k": 0.034,
            "conversion": {"temperature_design_deg_c": temperature, **given},
        },
        _solids(),
        coefficient,
        st.floats(0, 30),
    )


@st.composite
def _bridged(draw: st.DrawFn, *, within: float = 50.0) -> dict:
    """Two parts side by side, neither of which conducts more than so many times as well as the other."""
    share, first = draw(st.floats(0.05, 0.95)), draw(CONDUCTIVITY)
    second = draw(st.floats(max(0.02, first / within), min(3.0, first * within)))
    parts = [
        {"name": "a", "fraction": share, "conductivity_w_per_m_k": first},
        {"name": "b", "fraction": 1 - share, "conductivity_w_per_m_k": second},
    ]
    return {"kind": "bridged", "name": "studs", "thickness_mm": draw(THICKNESS), "parts": parts}


@st.composite
def build_ups(draw: st.DrawFn, *, within: float = 50.0) -> dict:
    """Layers of any kind but tabulated ones, the innermost of them solid."""
    layers = draw(st.lists(st.one_of(_solids(), _airs(), _bridged(within=within)), min_size=0, max_size=6))
    return {"element": draw(st.sampled_from(["wall", "roof", "floor"])), "layers": [draw(_solids()), *layers]}


MATERIALS = ["gypsum-900", "plasterboard-900", "concrete-2200", "osb-650", "glass", "steel"]


@st.composite
def _vapour(draw: st.DrawFn, members: dict[str, Any]) -> dict:
    """A layer, or a part of one, that says in one of three ways how it passes vapour."""
    said = [
        {"vapour_resistance_factor": draw(st.sampled_from([1, 1.5, 30, 150, 100_000]))},
        {"vapour_sd_m": draw(st.sampled_from([0.01, 0.5, 20, 1500]))},
        {"vapour_tight": True},
    ]
    return members | said[draw(st.sampled_from([0, 0, 0, 1, 1, 2]))]


@st.composite
def vapour_build_ups(draw: st.DrawFn) -> dict:
    """A wall of one to seven layers, all of which say how they pass vapour; tabulated ones by their table."""
    made: list[dict] = []
    for kind in ["solid", *draw(st.lists(st.sampled_from(["solid", "material", "air", "bridged"]), max_size=6))]:
        match kind:
            case "solid":
                made.append(draw(_vapour(draw(_solids()))))
            case "material":
                key = draw(st.sampled_from(MATERIALS))
                made.append({"kind": "material", "material": key, "thickness_mm": draw(THICKNESS)})
            case "air":
                made.append(draw(_airs()))
            case _:
                layer = draw(_bridged())
                made.append(layer | {"parts": [draw(_vapour(part)) for part in layer["parts"]]})
    return {"element": "wall", "layers": made}


WARM = st.floats(18, 26)
COLD = st.floats(-20, 15)


def _airs_of(temperature: st.SearchStrategy[float], wettest: float) -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries({"temperature_deg_c": temperature, "humidity_fraction": st.floats(0.2, wettest)})


@st.composite
def _monthly(draw: st.DrawFn) -> dict:
    """A year outdoors up to 15 degrees, so that indoor air of any class at 18 degrees and more holds its excess."""
    months = draw(st.lists(_airs_of(COLD, 0.9), min_size=12, max_size=12))
    indoor = draw(
        st.one_of(
            st.fixed_dictionaries(
                {"kind": st.just("class"), "humidity_class": st.integers(1, 4)},
                optional={"margin_factor": st.sampled_from([1.0, 1.1]), "temperature_deg_c": st.floats(20, 26)},
            ),
            _airs_of(WARM, 0.7).map(lambda air: {"kind": "constant"} | air),
            st.lists(_airs_of(WARM, 0.7), min_size=12, max_size=12).map(
                lambda airs: {"kind": "monthly", "months": airs}
            ),
        )
    )
    days = draw(st.sampled_from([{}, {"days": 30}]))
    return {"kind": "monthly", "months": [month | days for month in months], "indoor": indoor}


def _blocks() -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries(
        {"days": st.floats(1, 120), "outdoor": _airs_of(COLD, 0.95), "indoor": _airs_of(WARM, 0.7)}
    )


def _steady() -> st.SearchStrategy[dict]:
    return st.builds(
        lambda block, drying: {"kind": "steady", **block, "drying": drying}, _blocks(), st.none() | _blocks()
    )


def condensations() -> st.SearchStrategy[dict]:
    """A wall between two climates."""
    return st.fixed_dictionaries(
        {"build_up": vapour_build_ups(), "climate": _monthly() | _steady()},
        optional={
            "surface_vapour": st.fixed_dictionaries({"internal_sd_m": st.floats(0, 0.1)}),
            "tabulated_factors": st.sampled_from(["less_favourable", "dry", "wet"]),
            "options": st.sampled_from([{"trace": "steps"}, {"trace": "none"}]),
        },
    )


LENGTHS = st.sampled_from([20, 60, 100.5, 365])
INSIDE = {"environment": "inside", "temperature_deg_c": 20, "surface_resistance_m2_k_per_w": 0.13}
OUTSIDE = {"environment": "outside", "temperature_deg_c": -5, "surface_resistance_m2_k_per_w": 0.04}
CELLAR = {"environment": "cellar", "temperature_deg_c": 8, "surface_resistance_m2_k_per_w": 0.17}
CLOSED = {"adiabatic": True}


@st.composite
def _sections(draw: st.DrawFn) -> dict:
    """A grid of rectangles from 0 on, whole or without its upper right one: inside at the left, outside on the right, or round an axis."""
    widths, heights = (draw(st.lists(LENGTHS, min_size=2, max_size=3)) for _ in range(2))
    x = [sum(widths[:at]) for at in range(len(widths) + 1)]
    y = [sum(heights[:at]) for at in range(len(heights) + 1)]
    notched, turned = draw(st.booleans()), draw(st.booleans())
    cells = [(column, row) for row in range(len(heights)) for column in range(len(widths))]
    rectangles = [
        {
            "x_mm": x[column],
            "y_mm": y[row],
            "width_mm": widths[column],
            "height_mm": heights[row],
            "conductivity_w_per_m_k": draw(st.sampled_from([0.035, 0.13, 0.8, 2.3, 50])),
        }
        for column, row in (cells[:-1] if notched else cells)
    ]
    warm = [(0, 0, x[-1], 0)] if turned else [(0, 0, 0, y[-1])]
    floor = [(0, 0, 0, y[-1])] if turned else [(0, 0, x[-1], 0)]
    head = [(0, y[-1], x[-2], y[-1]), (x[-2], y[-2], x[-1], y[-2])] if notched else [(0, y[-1], x[-1], y[-1])]
    side = [(x[-2], y[-1], x[-2], y[-2]), (x[-1], y[-2], x[-1], 0)] if notched else [(x[-1], 0, x[-1], y[-1])]
    cold = [*head, *side] if draw(st.booleans()) else (head if turned else side)
    rest = [one for one in (*head, *side) if one not in cold]
    axis = turned and draw(st.booleans())
    other = draw(st.sampled_from([CLOSED, CLOSED, CELLAR]))
    bounded = [(warm, INSIDE), (cold, OUTSIDE), (rest, other), ([] if axis else floor, CLOSED)]
    boundaries = [{"segment": _segment(one), **facing} for places, facing in bounded for one in places]
    return {
        "rectangles": rectangles,
        "boundaries": boundaries,
        "geometry": "axisymmetric" if axis else "plane",
        "points": [{"id": "first", "x_mm": widths[0] / 2, "y_mm": heights[0] / 3}],
        "flanks": draw(_flanks(x[-1], axis=axis)),
        "cases": draw(
            st.sampled_from(
                [[], [{"id": "frost", "temperatures": [{"environment": "outside", "temperature_deg_c": -15}]}]]
            )
        ),
    }


def _segment(ends: tuple[float, float, float, float]) -> dict:
    return dict(zip(("x_from_mm", "y_from_mm", "x_to_mm", "y_to_mm"), ends, strict=True))


def _flanks(length: float, *, axis: bool) -> st.SearchStrategy[list[dict]]:
    one = st.builds(
        lambda u, external: {
            "u_value_w_per_m2_k": u,
            "internal_length_mm": length,
            "external_length_mm": length if axis else external,
        },
        st.floats(0.1, 3),
        LENGTHS,
    )
    return st.lists(one, max_size=1 if axis else 2)


CLAD = [
    {"kind": "solid", "name": "plaster", "thickness_mm": 13, "conductivity_w_per_m_k": 0.57},
    {"kind": "solid", "name": "block", "thickness_mm": 190, "conductivity_w_per_m_k": 1.13},
    {"kind": "solid", "name": "insulation board", "thickness_mm": 100, "conductivity_w_per_m_k": 0.034},
    {"kind": "solid", "name": "slip", "thickness_mm": 20, "conductivity_w_per_m_k": 0.84},
]


@st.composite
def _details(draw: st.DrawFn) -> dict:
    """A ready detail of a wall of plaster, block, insulation and slips; what it leaves out is assumed."""
    thickness = draw(st.sampled_from([40, 100, 160.5, 240]))
    frame = {"width_mm": draw(st.sampled_from([60, 120])), "depth_mm": draw(st.sampled_from([60, 90]))}
    opening = {"frame": frame, "setback_mm": draw(st.sampled_from([20, 65, 120]))}
    rail = {"thickness_mm": draw(st.sampled_from([1, 2.5]))}
    kinds = {
        "external_corner": {},
        "internal_corner": {},
        "jamb": opening | draw(st.sampled_from([{}, {"lining": {"thickness_mm": 12, "conductivity_w_per_m_k": 0.2}}])),
        "head": opening | draw(st.sampled_from([{}, {"lintel": {"height_mm": 215}}])),
        "sill": opening | draw(st.sampled_from([{}, {"piece": {"thickness_mm": 25, "conductivity_w_per_m_k": 1.3}}])),
        "base_rail": {"rail": rail} | draw(
            st.sampled_from([{}, {"plinth": {"thickness_mm": 60, "conductivity_w_per_m_k": 0.036}}])
        ),
        "slab_edge": {"slab_thickness_mm": draw(st.sampled_from([150, 250]))},
        "movement_joint": {"width_mm": draw(st.sampled_from([8, 12, 20]))},
        "point_fastener": {
            "shank": {"diameter_mm": draw(st.sampled_from([4, 8])), "conductivity_w_per_m_k": 50},
            "embedment_mm": 40,
        },
    }  # fmt: skip
    kind = draw(st.sampled_from(sorted(kinds)))
    insulation = CLAD[2] | {"thickness_mm": thickness}
    build_up = {"element": "wall", "layers": [*CLAD[:2], insulation, CLAD[3]]}
    return {"junction": {"detail": {"kind": kind, "parameters": kinds[kind]}}, "build_up": build_up}


def junctions() -> st.SearchStrategy[dict]:
    """Drawn sections and ready details, solved quickly."""
    asked = st.one_of(_sections().map(lambda section: {"junction": section}), _details())
    options = st.sampled_from([{"effort": "quick"}, {"effort": "quick", "trace": "steps"}])
    return st.builds(lambda junction, chosen: junction | {"options": chosen}, asked, options)


@st.composite
def u_values(draw: st.DrawFn) -> dict:
    """A build-up and any of what may be asked about it; its innermost layer is the one that is looked for."""
    made = {"build_up": draw(build_ups(within=2.5))}
    layers = made["build_up"]["layers"]
    if draw(st.booleans()):
        layers.append(draw(_converted()))
    bridged = [index for index, layer in enumerate(layers) if layer["kind"] == "bridged"]
    if bridged and draw(st.booleans()):
        layers.append(layers[bridged[0]] | {"in_line_with": bridged[0]})
    asked = draw(
        st.fixed_dictionaries(
            {},
            optional={
                "temperatures": st.fixed_dictionaries({"internal_deg_c": WARM, "external_deg_c": COLD}),
                "sensitivity": st.just(value=True),
                "tolerances": tolerances(),
                "target": targets(),
                "corrections": st.sampled_from([{}, {"insulation_layer": 0, "air_gap_level": 1}]),
            },
        )
    )
    return made | asked


def tolerances() -> st.SearchStrategy[dict]:
    """Of the innermost layer, and of the surfaces."""
    layer = st.fixed_dictionaries(
        {"layer": st.just(0)},
        optional={"thickness_mm": st.floats(0, 0.9), "conductivity_fraction": st.floats(0, 0.3)},
    )
    return st.fixed_dictionaries(
        {"samples_count": st.integers(100, 1000)},
        optional={"layers": st.lists(layer, max_size=1), "surfaces_fraction": st.floats(0, 0.5)},
    )


def targets() -> st.SearchStrategy[dict]:
    """A U-value that three metres of any of these layers reach."""
    return st.fixed_dictionaries(
        {"u_value_w_per_m2_k": st.floats(1, 5), "layer": st.just(0)},
        optional={"thicknesses_held_mm": st.sampled_from([[], [50], [40, 2000, 100]])},
    )


@st.composite
def heat_sheets(draw: st.DrawFn, kind: str) -> dict:
    """Isotherms of a junction, in one of its cases where it has any, or the vapour pressures of a month."""
    if kind == "isotherms":
        junction = draw(junctions())
        case = draw(st.sampled_from([None, *(one["id"] for one in junction["junction"].get("cases", []))]))
        return {"thermal_junction": junction, "sheets": [{"kind": kind, "case": case}]}
    check = draw(condensations())
    months = [None, 1, 12] if check["climate"]["kind"] == "monthly" else [None]
    return {"condensation_check": check, "sheets": [{"kind": kind, "month": draw(st.sampled_from(months))}]}
