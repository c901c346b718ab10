"""Junction requests in few words: sections drawn by rectangles and boundaries, and ready details of one wall."""

from typing import Any

from storeyrod.answer import Answer
from storeyrod.junctions.calculation import calculate
from storeyrod.junctions.models import ThermalJunctionRequest, ThermalJunctionResult
from storeyrod.trace import SILENT, Trace

Request = dict[str, Any]


def rectangle(x: float, y: float, width: float, height: float, conductivity: float = 1.0, name: str = "") -> Request:
    sides = {"x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height}
    return {**sides, "conductivity_w_per_m_k": conductivity, "name": name}


def segment(x_from: float, y_from: float, x_to: float, y_to: float) -> Request:
    return {"x_from_mm": x_from, "y_from_mm": y_from, "x_to_mm": x_to, "y_to_mm": y_to}


def boundary(*ends: float, temperature: float, resistance: float = 0.0, environment: str | None = None) -> Request:
    made = {
        "segment": segment(*ends), "temperature_deg_c": temperature, "surface_resistance_m2_k_per_w": resistance,
    }  # fmt: skip
    return made if environment is None else {**made, "environment": environment}


def adiabatic(*ends: float) -> Request:
    return {"segment": segment(*ends), "adiabatic": True}


def drawn(rectangles: list[Request], boundaries: list[Request], options: Request | None = None, **more: Any) -> Request:
    """A request for a drawn section."""
    made: Request = {"junction": {"rectangles": rectangles, "boundaries": boundaries, **more}}
    return made if options is None else {**made, "options": options}


def square(**more: Any) -> Request:
    """A square of 100 mm and 1 W/(m.K), warm at its foot and cold at its head."""
    boundaries = [
        boundary(0, 0, 100, 0, temperature=20, resistance=0.13, environment="in"),
        boundary(0, 100, 100, 100, temperature=0, resistance=0.04, environment="out"),
        adiabatic(0, 0, 0, 100),
        adiabatic(100, 0, 100, 100),
    ]
    return drawn(**{"rectangles": [rectangle(0, 0, 100, 100)], "boundaries": boundaries, **more})


WALL: Request = {
    "element": "wall",
    "surface_internal_m2_k_per_w": 0.13,
    "surface_external_m2_k_per_w": 0.04,
    "layers": [
        {"kind": "solid", "name": "masonry", "thickness_mm": 215, "conductivity_w_per_m_k": 0.77},
        {"kind": "solid", "name": "insulation", "thickness_mm": 100, "conductivity_w_per_m_k": 0.031},
        {"kind": "solid", "name": "adhesive and slip", "thickness_mm": 25, "conductivity_w_per_m_k": 0.9},
    ],
}
"""215 mm of masonry, 100 of insulation, 25 of adhesive and slip: U = 1 / 3.702805."""

PLAIN_FRAME: Request = {"width_mm": 60, "depth_mm": 70}
SHANK: Request = {"diameter_mm": 8, "conductivity_w_per_m_k": 50}

PARAMETERS: dict[str, Request] = {
    "external_corner": {},
    "internal_corner": {},
    "jamb": {"frame": PLAIN_FRAME, "setback_mm": 60},
    "head": {"frame": PLAIN_FRAME, "setback_mm": 60, "lintel": {"height_mm": 215}},
    "sill": {
        "frame": PLAIN_FRAME, "setback_mm": 60, "piece": {"thickness_mm": 40, "conductivity_w_per_m_k": 1.3},
    },
    "base_rail": {"rail": {"thickness_mm": 2}},
    "slab_edge": {"slab_thickness_mm": 200},
    "movement_joint": {"width_mm": 12},
    "point_fastener": {"shank": SHANK, "embedment_mm": 50},
}  # fmt: skip
"""A plain one of every kind of detail."""


def detail(kind: str, build_up: Request | None = WALL, options: Request | None = None, **parameters: Any) -> Request:
    """A request for a ready detail: the plain one with members changed."""
    asked = {"kind": kind, "parameters": {**PARAMETERS[kind], **parameters}}
    made: Request = {"junction": {"detail": asked}}
    if build_up is not None:
        made["build_up"] = build_up
    return made if options is None else {**made, "options": options}


def layered(*layers: Request) -> Request:
    """The wall with its layers replaced."""
    return {**WALL, "layers": list(layers)}


def answered(request: Request, trace: Trace = SILENT) -> Answer[ThermalJunctionResult]:
    return calculate(ThermalJunctionRequest.model_validate(request), trace)
