"""Cases of junctions: rows of room, request that triggers, request just inside."""

from typing import Any, Final

from junction_requests import SHANK, WALL, adiabatic, boundary, detail, drawn, layered, rectangle, square

Row = tuple[str, dict[str, Any], dict[str, Any]]

MASONRY, INSULATION, SLIP = WALL["layers"]
STUDS: Final = {
    "kind": "bridged", "name": "studs", "thickness_mm": 100,
    "parts": [
        {"name": "stud", "fraction": 0.1, "conductivity_w_per_m_k": 0.13},
        {"name": "wool", "fraction": 0.9, "conductivity_w_per_m_k": 0.035},
    ],
}  # fmt: skip
VENTED: Final = {"kind": "air", "thickness_mm": 40, "ventilation": "strong", "opening_mm2_per_m": 1500}
QUICK: Final = {"effort": "quick"}


def square_with(at: int, **changes: Any) -> dict[str, Any]:
    """The square with members of one boundary changed."""
    boundaries = list(square()["junction"]["boundaries"])
    boundaries[at] = {**boundaries[at], **changes}
    return square(boundaries=boundaries)


def without(at: int) -> dict[str, Any]:
    return square(boundaries=[one for index, one in enumerate(square()["junction"]["boundaries"]) if index != at])


def two(*, apart: float = 0.0, over: float = 0.0) -> dict[str, Any]:
    """Two halves of the square, one above the other, apart or over one another."""
    boundaries = [
        boundary(0, 0, 100, 0, temperature=20, resistance=0.13),
        boundary(0, 100, 100, 100, temperature=0, resistance=0.04),
        adiabatic(0, 0, 0, 100),
        adiabatic(100, 0, 100, 100),
    ]
    halves = [rectangle(0, 0, 100, 50 + over), rectangle(0, 50 + apart, 100, 50 - apart)]
    return drawn(halves, boundaries)


def ring(*, filled: bool) -> dict[str, Any]:
    """A frame of four rectangles round a middle."""
    parts = [rectangle(0, 0, 100, 40), rectangle(0, 60, 100, 40), rectangle(0, 40, 40, 20), rectangle(60, 40, 40, 20)]
    return square(rectangles=[*parts, rectangle(40, 40, 20, 20, 0.025)] if filled else parts)


def turned(left: float, *flanks: dict[str, float]) -> dict[str, Any]:
    """A disc or ring about the axis, warm below."""
    edges = [
        boundary(left, 0, 100, 0, temperature=20, resistance=0.13),
        boundary(left, 50, 100, 50, temperature=0, resistance=0.04),
        adiabatic(100, 0, 100, 50),
    ]
    return drawn([rectangle(left, 0, 100 - left, 50)], edges, geometry="axisymmetric", flanks=list(flanks))


def axis(*, open_to_heat: bool) -> dict[str, Any]:
    """A disc with a boundary on its axis."""
    made = turned(0)
    edge = boundary(0, 0, 0, 50, temperature=5, resistance=0.1) if open_to_heat else adiabatic(0, 0, 0, 50)
    made["junction"]["boundaries"].append(edge)
    return made


def disc(internal: float, external: float) -> dict[str, float]:
    return {"u_value_w_per_m2_k": 2, "internal_length_mm": internal, "external_length_mm": external}


def three(side: float, **more: Any) -> dict[str, Any]:
    """A square with a third temperature at its left side, or with that of its foot there."""
    edges = [
        boundary(0, 0, 100, 0, temperature=20, resistance=0.13),
        boundary(0, 100, 100, 100, temperature=0, resistance=0.04),
        boundary(0, 0, 0, 100, temperature=side, resistance=0.13),
        adiabatic(100, 0, 100, 100),
    ]
    return {**square(boundaries=edges, **more), "options": QUICK}


def meeting(resistance: float) -> dict[str, Any]:
    """A square whose warm foot and cold side meet in a corner."""
    edges = [
        boundary(0, 0, 100, 0, temperature=20),
        boundary(0, 0, 0, 100, temperature=0, resistance=resistance),
        adiabatic(100, 0, 100, 100),
        adiabatic(0, 100, 100, 100),
    ]
    return drawn([rectangle(0, 0, 100, 100)], edges, options=QUICK)


def checks(dark: float) -> dict[str, Any]:
    """A board of 20 by 20 fields: all heat between fields of a kind goes through points, the more so the greater their contrast."""
    fields = [
        rectangle(5 * column, 5 * row, 5, 5, dark if (column + row) % 2 else 0.001)
        for row in range(20)
        for column in range(20)
    ]
    return square(rectangles=fields, options=QUICK)


def case(environment: str) -> dict[str, Any]:
    return square(cases=[{"id": "a", "temperatures": [{"environment": environment, "temperature_deg_c": -10}]}])


def point(y: float) -> dict[str, Any]:
    return square(points=[{"id": "p", "x_mm": 50, "y_mm": y}])


JUNCTION_FINDINGS: Final[dict[str, Row]] = {
    "bridged-layer-merged": (
        "junctions",
        detail("movement_joint", layered(MASONRY, STUDS, INSULATION, SLIP), QUICK, insulation_layer=2),
        detail("movement_joint"),
    ),
    # The wall is 340 thick: three times that is 1020, more than 1 m.
    "cut-off-near": (
        "junctions",
        detail("movement_joint", leg_mm=1019.9, options=QUICK),
        detail("movement_joint", leg_mm=1020, options=QUICK),
    ),
    "ventilated-cladding-not-drawn": (
        "junctions",
        detail("jamb", layered(MASONRY, INSULATION, VENTED, SLIP), QUICK, setback_mm=165),
        detail("movement_joint", layered(MASONRY, INSULATION, VENTED, SLIP), QUICK),
    ),
    "inside-by-temperature": (
        "junctions",
        square_with(0, environment="outside"),
        square_with(0, environment="inside"),
    ),
    "temperature-factors-left-out": ("junctions", three(10), three(20)),
    "transmittance-left-out": (
        "junctions",
        three(10, flanks=[disc(100, 100)]),
        three(10, flanks=[disc(100, 100)], between={"inside": "20 °C", "outside": "0 °C"}),
    ),
    # From corner to corner the square has 141.4214 mm.
    "flank-beyond-section": ("junctions", square(flanks=[disc(100, 141.5)]), square(flanks=[disc(100, 141.4)])),
    "mesh-not-converged": ("junctions", checks(0.1), checks(0.0015)),
    "heat-flow-unbounded": ("junctions", meeting(0.0), meeting(0.01)),
}

JUNCTION_REFUSALS: Final[dict[str, Row]] = {
    "junction-unclear": (
        "junctions",
        {**detail("external_corner"), "junction": {**square()["junction"], **detail("external_corner")["junction"]}},
        detail("external_corner"),
    ),
    "build-up-missing": ("junctions", detail("external_corner", None), detail("external_corner")),
    "layer-not-drawable": (
        "junctions",
        detail(
            "movement_joint",
            layered(MASONRY, {"kind": "resistance", "name": "a", "resistance_m2_k_per_w": 0.1}, INSULATION),
        ),
        detail("movement_joint", layered(MASONRY, INSULATION)),
    ),
    # 215 mm of masonry stand behind the insulation.
    "detail-unfit": (
        "junctions",
        detail("point_fastener", embedment_mm=215.1, options=QUICK),
        detail("point_fastener", embedment_mm=215, shank=SHANK, options=QUICK),
    ),
    "boundary-contradictory": ("junctions", square_with(0, adiabatic=True), square()),
    "environment-contradictory": (
        "junctions",
        square_with(1, environment="in"),
        square_with(1, environment="elsewhere"),
    ),
    "environment-unknown": ("junctions", case("attic"), case("out")),
    "no-temperature-difference": (
        "junctions",
        square_with(1, temperature_deg_c=20),
        square_with(1, temperature_deg_c=19.9),
    ),
    "flanks-unfit": ("junctions", turned(0, disc(100, 99)), turned(0, disc(100, 100))),
    "point-outside": ("junctions", point(100.001), point(100)),
    "rectangles-overlap": ("junctions", two(over=0.001), two()),
    "section-hole": ("junctions", ring(filled=False), ring(filled=True)),
    "section-apart": ("junctions", two(apart=0.001), two()),
    "axis-crossed": ("junctions", turned(-0.001), turned(0)),
    "axis-open": ("junctions", axis(open_to_heat=True), axis(open_to_heat=False)),
    "boundary-off-outline": (
        "junctions",
        square_with(0, segment={"x_from_mm": 0, "y_from_mm": 0, "x_to_mm": 100.001, "y_to_mm": 0}),
        square(),
    ),
    "boundary-twice": (
        "junctions",
        square(boundaries=[*square()["junction"]["boundaries"], adiabatic(99, 0, 100, 0)]),
        square(),
    ),
    "boundary-missing": ("junctions", without(3), square()),
}
