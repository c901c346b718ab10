"""What a reader of a moisture check must be told."""

from collections.abc import Iterator
from typing import Final

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.moisture.models import CondensationRequest, HumidityClass, MonthlyClimate
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.wet_places import wet_places
from storeyrod.moisture.working import MoistureWorking
from storeyrod.thermal.models import AirLayer

_LARGE: Final = MOISTURE_RULES["large_amount"].value
_LARGE_TOTAL: Final = MOISTURE_RULES["large_amount_in_all"].value
_SATURATED: Final = 1.0
_FREEZING: Final = 0.0


def findings_of(request: CondensationRequest, working: MoistureWorking) -> list[Finding]:
    """Findings on the section, on the surface, then on condensation."""
    return [*_on_section(request, working), *_on_surface(working), *_on_condensation(working)]


def not_checked(request: CondensationRequest) -> list[str]:
    """What a reader might think was checked and was not."""
    made = [
        "Driving rain, rising damp, and water behind the cladding.",
        "Air that leaks through joints: it can carry more moisture than diffusion.",
        "Capillary flow, moisture stored in materials, and moisture built in: layers are taken as dry, and vapour as moving by diffusion alone.",
        "Sun, radiation to the sky, heat of condensation, and conductivity that rises with moisture.",
        "Junctions, corners, reveals and fasteners: surfaces there are colder than on the plane element. Hold the temperature factor of "
        "each junction against surface_factor_required.",
        "Whether the materials bear the moisture that condenses, and the requirements of the local code: a licensed designer decides.",
    ]
    climate = request.climate
    if not isinstance(climate, MonthlyClimate):
        return [*made, "Any other climate than the blocks given."]
    made.append("Months are taken whole: a plane that dries within a month stays at saturation to its end.")
    made.append("Whether the climate is that of the place, and cold enough for design.")
    if not isinstance(climate.indoor, HumidityClass):
        made.append("Indoor air is used as given, without a margin.")
    return made


def _on_section(request: CondensationRequest, working: MoistureWorking) -> Iterator[Finding]:
    section = working.section
    for layer in section.layers:
        if layer.part is not None:
            yield finding("bridged-section", {"pointer": f"{layer.pointer}/parts/{layer.part}"})
        if isinstance(layer.layer, AirLayer) and layer.layer.ventilation == "slight":
            yield finding("ventilation-not-credited", {"pointer": f"{layer.pointer}/ventilation"})
    counted, given = len(section.layers), len(request.build_up.layers)
    if counted < given:
        where = f"/build_up/layers/{counted}"
        yield finding("beyond-ventilated-layer", {"pointer": where}, value=float(given - counted - 1), unit="count")
    for part in section.compartments:
        outside = section.planes[part.first].outside
        if not part.open_inside and not part.open_outside and part.last > part.first and outside is not None:
            yield finding("sealed-between-tight-layers", {"pointer": f"/build_up/layers/{outside}"})


def _on_surface(working: MoistureWorking) -> Iterator[Finding]:
    surface = working.surface
    not_warmer = sum(not period.warmer_inside for period in working.periods)
    if not_warmer:
        yield finding("indoor-not-warmer", {"pointer": "/climate/indoor"}, value=float(not_warmer), unit="count")
    inner, outer = working.over_saturation
    if working.surface_condenses:
        humidity = float(max(surface.humidity, inner or 0.0))
        yield finding(
            "surface-condensation", {"pointer": "/climate"}, value=humidity, limit=_SATURATED, unit="fraction"
        )
    if outer is not None:
        yield finding(
            "external-surface-condensation",
            {"pointer": "/climate"},
            value=float(outer),
            limit=_SATURATED,
            unit="fraction",
        )
    required, factor = surface.required, float(surface.factor)
    if required is None:
        return
    code = "surface-factor-out-of-reach" if required >= 1.0 else "mould-risk" if factor < required else "junctions-open"
    yield finding(code, {"pointer": "/build_up"}, value=factor, limit=float(required), unit="fraction")


def _on_condensation(working: MoistureWorking) -> Iterator[Finding]:
    course = working.course
    if not course.condenses:
        return
    for place in wet_places(working):
        yield place.said("condensation-in-section", place.greatest, unit="kg_per_m2")
        if place.greatest > _LARGE:
            yield place.said("condensate-large", place.greatest, limit=_LARGE, unit="kg_per_m2")
        if place.coldest < _FREEZING:
            yield place.said("condensate-freezes", place.coldest, limit=_FREEZING, unit="deg_c")
    if course.greatest > _LARGE_TOTAL:
        where: Where = {"pointer": "/build_up/layers"}
        advice = f"All planes of the section together: {FINDINGS['condensate-large'].advice}"
        yield finding(
            "condensate-large", where, value=course.greatest, limit=_LARGE_TOTAL, unit="kg_per_m2", advice=advice
        )
    if not working.dries:
        yield finding("drying-not-assessed", {"pointer": "/climate"})
    elif course.verdict == "remains":
        yield finding("condensation-remains", {"pointer": "/climate"}, value=course.remaining, unit="kg_per_m2")
