"""Cases of what is asked beyond a plain U-value: rows of room, request that triggers, request just inside."""

from typing import Any, Final

Request = dict[str, Any]

BLOCK: Final = {"kind": "solid", "name": "block", "thickness_mm": 190, "conductivity_w_per_m_k": 1.13}
BOARD: Final = {"kind": "solid", "name": "insulation", "thickness_mm": 100, "conductivity_w_per_m_k": 0.034}


def wall(*layers: dict[str, Any], **members: Any) -> Request:
    return {"build_up": {"element": "wall", "layers": list(layers)}, **members}


def studs(*parts: tuple[float, float], **members: Any) -> dict[str, Any]:
    """A bridged layer of 100 mm from (fraction, conductivity) parts."""
    rows = [
        {"name": f"part {at}", "fraction": fraction, "conductivity_w_per_m_k": conductivity}
        for at, (fraction, conductivity) in enumerate(parts)
    ]
    return {"kind": "bridged", "name": "studs", "thickness_mm": 100, "parts": rows, **members}


def declared(**moisture: Any) -> Request:
    """Insulation whose conductivity is converted for moisture."""
    conversion = {"material": "expanded-polystyrene", "moisture": {"content_declared_fraction": 0.0, **moisture}}
    layer = {
        "kind": "declared", "name": "board", "thickness_mm": 100, "conductivity_declared_w_per_m_k": 0.036,
        "conversion": conversion,
    }  # fmt: skip
    return wall(layer)


def void(width_mm: float) -> dict[str, Any]:
    return {"kind": "air", "thickness_mm": 25, "ventilation": "none", "void_width_mm": width_mm}


def fastened(insulation_thickness_mm: float) -> Request:
    shank = {"kind": "calculated", "conductivity_w_per_m_k": 17, "area_mm2": 20, "count_per_m2": 6}
    return wall(BOARD, corrections={"fasteners": {**shank, "insulation_thickness_mm": insulation_thickness_mm}})


def tapered(layer: int) -> Request:
    parts = [{"shape": "rectangle", "area_m2": 10}]
    air = {"kind": "air", "thickness_mm": 25, "ventilation": "none"}
    return wall(air, BOARD, tapered={"layer": layer, "slope_percent": 2, "parts": parts})


def target(u_value: float, layer: int = 1, **members: Any) -> Request:
    layers = ({"kind": "resistance", "name": "block", "resistance_m2_k_per_w": 0.17}, BOARD)
    return wall(*layers, target={"u_value_w_per_m2_k": u_value, "layer": layer, **members})


def loose(**members: Any) -> Request:
    return wall(BLOCK, BOARD, tolerances={"layers": [{"layer": 1, **members}]})


def thin(**members: Any) -> Request:
    return wall({**studs((0.5, 2.0), (0.5, 0.0471)), "thickness_mm": 15}, **members)


def thicker(by_mm: float) -> Request:
    return {"layers": [{"layer": 0, "thickness_mm": by_mm}]}


def more_fasteners(share: float) -> Request:
    fasteners = {"kind": "declared", "chi_w_per_k": 0.0011, "count_per_m2": 8}
    return wall(BLOCK, BOARD, corrections={"fasteners": fasteners}, tolerances={"fastener_count_fraction": share})


U_VALUE_FINDINGS: Final[dict[str, tuple[str, Request, Request]]] = {
    # ISO 6946, Annex D: small voids are narrower than ten times their thickness (from memory).
    "void-wide": ("thermal", wall(void(250)), wall(void(249.9))),
    # Halves of 2 and 0.0471: the limits are 1.478 apart at 23 mm and 1.507 at 29, by hand from both.
    "band-beyond-method": ("thermal", thin(tolerances=thicker(14)), thin(tolerances=thicker(8))),
    "held-thickness-beyond-method": (
        "thermal",
        thin(target={"u_value_w_per_m2_k": 4.3, "layer": 0, "thicknesses_held_mm": [29]}),
        thin(target={"u_value_w_per_m2_k": 4.3, "layer": 0, "thicknesses_held_mm": [23]}),
    ),
    # U is 0.30494, and 3 % of it 0.0091483; 0.0011 times 8 is 0.0088: with 5 % more it counts, with 3 % not.
    "correction-rule-crossed": ("thermal", more_fasteners(0.05), more_fasteners(0.03)),
    # R of all but the board is 0.34, so U = 0.3 takes 0.034 * (1/0.3 - 0.34) = 0.10177 m.
    "held-thickness-short": (
        "thermal",
        target(0.3, thicknesses_held_mm=[80, 101.7]),
        target(0.3, thicknesses_held_mm=[80, 101.8]),
    ),
}

U_VALUE_REFUSALS: Final[dict[str, tuple[str, Request, Request]]] = {
    # ISO 6946 says only "metal"; from a ratio of 100 the service takes a part for metal.
    "metal-bridges-insulation": (
        "thermal", wall(studs((0.999, 0.04), (0.001, 4.04))), wall(studs((0.999, 0.04), (0.001, 3.96))),
    ),
    # The two limits are 1.5 apart at a conductivity of 0.046993; see combined-method-limit among the findings.
    "limits-too-far-apart": ("thermal", wall(studs((0.5, 2.0), (0.5, 0.0469))), wall(studs((0.5, 2.0), (0.5, 0.0471)))),
    "alignment-contradictory": (
        "thermal",
        wall(studs((0.1, 0.13), (0.9, 0.04)), studs((0.1001, 0.13), (0.8999, 0.04), in_line_with=0)),
        wall(studs((0.1, 0.13), (0.9, 0.04)), studs((0.1, 0.13), (0.9, 0.035), in_line_with=0)),
    ),
    "conversion-contradictory": (
        "thermal",
        declared(basis="by_mass", content_design_fraction=0.02),
        declared(basis="by_volume", content_design_fraction=0.02),
    ),
    "fasteners-contradictory": ("thermal", fastened(1000), fastened(100)),
    "tapered-contradictory": ("thermal", tapered(0), tapered(1)),
    "target-layer-wrong": ("thermal", target(0.3, layer=0), target(0.3, layer=1)),
    # 3 m of 0.034 and 0.34 of the rest: R = 88.5753, U = 0.011290.
    "target-unreachable": ("thermal", target(0.01128), target(0.0113)),
    "tolerance-wrong": ("thermal", loose(thickness_mm=100), loose(thickness_mm=99)),
}  # fmt: skip
