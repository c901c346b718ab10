"""Requests for moisture checks, and short ways to their answers."""

from typing import Any, Final

from storeyrod.answer import Answer
from storeyrod.moisture.calculation import calculate
from storeyrod.moisture.models import CondensationRequest
from storeyrod.trace import SILENT, Trace

OUTDOOR_TEMPERATURES: Final = [0.2, -1.8, 2.7, 8.3, 13.0, 16.8, 18.2, 18.4, 13.5, 7.0, 2.2, -0.1]
OUTDOOR_PERCENT: Final = [86, 86, 79, 68, 62, 70, 72, 72, 81, 88, 91, 93]
"""January to December of a published Polish design report (typical year of Poznan, 1971 to 2000)."""


def months(temperatures: Any = OUTDOOR_TEMPERATURES, percent: Any = OUTDOOR_PERCENT) -> list[dict[str, Any]]:
    """Twelve months outdoors."""
    return [air(theta, phi / 100) for theta, phi in zip(temperatures, percent, strict=True)]


def air(temperature: float, humidity: float) -> dict[str, Any]:
    """Air by temperature and humidity."""
    return {"temperature_deg_c": temperature, "humidity_fraction": humidity}


def by_class(number: int, **more: Any) -> dict[str, Any]:
    """Indoor air of a humidity class."""
    return {"kind": "class", "humidity_class": number, **more}


def monthly(indoor: dict[str, Any] | None = None, outdoor: Any = None, **more: Any) -> dict[str, Any]:
    """A monthly climate; indoors class 3."""
    return {
        "kind": "monthly",
        "months": months() if outdoor is None else outdoor,
        "indoor": by_class(3) if indoor is None else indoor,
        **more,
    }


def steady(indoor: dict[str, Any], outdoor: dict[str, Any], days: float = 30, **more: Any) -> dict[str, Any]:
    """A steady climate."""
    return {"kind": "steady", "days": days, "outdoor": outdoor, "indoor": indoor, **more}


def solid(thickness: float, conductivity: float, factor: float | None = None, **more: Any) -> dict[str, Any]:
    """A homogeneous layer, with its vapour factor."""
    row = {
        "kind": "solid", "name": "layer", "thickness_mm": thickness, "conductivity_w_per_m_k": conductivity, **more
    }  # fmt: skip
    return row if factor is None else {**row, "vapour_resistance_factor": factor}


def resistance(value: float, sd: float | None = None, **more: Any) -> dict[str, Any]:
    """A layer of declared resistance, with its equivalent air layer."""
    row = {"kind": "resistance", "name": "layer", "resistance_m2_k_per_w": value, **more}
    return row if sd is None else {**row, "vapour_sd_m": sd}


SLIPS_ON_WOOL: Final = [
    solid(13, 0.57, 10), solid(215, 0.18, 10), solid(120, 0.036, 1), solid(8, 0.90, 50), solid(20, 0.77, 20)
]  # fmt: skip
"""Plaster, aerated block, mineral wool, adhesive, slip: condenses between wool and adhesive in winter, and dries."""


def body(layers: Any, climate: dict[str, Any] | None = None, element: str = "wall", **more: Any) -> dict[str, Any]:
    """A request; members of the build-up may be given as ``build_up``."""
    build_up = {"element": element, "layers": list(layers), **more.pop("build_up", {})}
    return {"build_up": build_up, "climate": monthly() if climate is None else climate, **more}


def answer_of(document: dict[str, Any], trace: Trace = SILENT) -> Answer[Any]:
    """The answer to a request."""
    return calculate(CondensationRequest.model_validate(document), trace)


def condensation_of(layers: Any, climate: dict[str, Any] | None = None, **more: Any) -> Any:
    """The condensation of a build-up."""
    return answer_of(body(layers, climate, **more)).result["condensation"]
