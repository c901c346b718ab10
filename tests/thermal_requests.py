"""U-value requests in few words, for the tests of the thermal room."""

from typing import Any

from storeyrod.answer import Answer
from storeyrod.thermal.calculation import calculate
from storeyrod.thermal.corrections import terms_of
from storeyrod.thermal.models import UValueRequest, UValueResult
from storeyrod.thermal.u_value import build_up_u_value
from storeyrod.trace import SILENT, Trace


def solid(thickness_mm: float, conductivity: float, name: str = "layer") -> dict[str, Any]:
    return {"kind": "solid", "name": name, "thickness_mm": thickness_mm, "conductivity_w_per_m_k": conductivity}


def resistance(value: float) -> dict[str, Any]:
    return {"kind": "resistance", "name": "layer", "resistance_m2_k_per_w": value}


def air(thickness_mm: float = 25.0, ventilation: str = "none", **more: Any) -> dict[str, Any]:
    return {"kind": "air", "thickness_mm": thickness_mm, "ventilation": ventilation, **more}


def bridged(*parts: tuple[float, float], thickness_mm: float = 100.0) -> dict[str, Any]:
    """Parts as (fraction, resistance)."""
    rows = [{"name": "part", "fraction": fraction, "resistance_m2_k_per_w": value} for fraction, value in parts]
    return {"kind": "bridged", "name": "bridged", "thickness_mm": thickness_mm, "parts": rows}


def body(
    *layers: dict[str, Any],
    element: str = "wall",
    corrections: dict[str, Any] | None = None,
    strict: bool = False,
    **surfaces: float,
) -> dict[str, Any]:
    made: dict[str, Any] = {"build_up": {"element": element, "layers": list(layers), **surfaces}}
    if corrections is not None:
        made["corrections"] = corrections
    if strict:
        made["options"] = {"strict": True}
    return made


def answer_of(document: dict[str, Any], trace: Trace = SILENT) -> Answer[UValueResult]:
    return calculate(UValueRequest.model_validate(document), trace)


def remarked(document: dict[str, Any], trace: Trace = SILENT) -> Answer[UValueResult]:
    """As a take-off asks: metal and limits far apart are remarked on and not refused."""
    request = UValueRequest.model_validate(document)
    return build_up_u_value(request.build_up, "/build_up", terms_of(request.corrections, "/corrections", trace), trace)


def result_of(*layers: dict[str, Any], **more: Any) -> UValueResult:
    return remarked(body(*layers, **more)).result


def codes_of(document: dict[str, Any]) -> list[str]:
    return [found["code"] for found in remarked(document).findings]


WALL = (solid(215.0, 0.77), solid(100.0, 0.031), solid(25.0, 0.90))
"""Masonry, insulation and slip: R = 3.702805 with surfaces, U = 0.270066 (independent calculation)."""

SHANK = {"kind": "calculated", "conductivity_w_per_m_k": 17.0, "area_mm2": 19.634954, "count_per_m2": 6.0}
"""Stainless fasteners of 5 mm, six per square metre."""
