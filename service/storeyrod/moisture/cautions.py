"""What a reader of a moisture check must be told."""

from collections.abc import Iterator
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.moisture.models import CondensationRequest, HumidityClass, MonthlyClimate
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.working import MoistureWorking
from storeyrod.thermal.models import AirLayer

_LARGE: Final = MOISTURE_RULES["large_amount"].value
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
    humidity = max(state.humidity for state in surface.states)
    if humidity > _SATURATED:
        yield finding(
            "surface-condensation",
            {"pointer": "/climate"},
            value=float(humidity),
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
    for pointer, planes in _wet_layers(working).items():
        most = max(working.greatest[plane] for plane in planes)
        yield finding("condensation-in-section", {"pointer": pointer}, value=most, unit="kg_per_m2")
        if most > _LARGE:
            yield finding("condensate-large", {"pointer": pointer}, value=most, limit=_LARGE, unit="kg_per_m2")
        coldest = _coldest_wet(working, planes)
        if coldest < _FREEZING:
            yield finding("condensate-freezes", {"pointer": pointer}, value=coldest, limit=_FREEZING, unit="deg_c")
    if not working.dries:
        yield finding("drying-not-assessed", {"pointer": "/climate"})
    elif course.verdict == "remains":
        yield finding("condensation-remains", {"pointer": "/climate"}, value=course.remaining, unit="kg_per_m2")


def _wet_layers(working: MoistureWorking) -> dict[str, list[int]]:
    """Planes that ever hold moisture, by the layer on their inner side: most of them lie on its outer face."""
    made: dict[str, list[int]] = {}
    for plane in working.greatest:
        inside = working.section.planes[plane].inside
        made.setdefault(f"/build_up/layers/{inside or 0}", []).append(plane)
    return made


def _coldest_wet(working: MoistureWorking, planes: list[int]) -> float:
    profiles = working.course.profiles
    wet = (
        profiles[moment.at].temperatures[plane]
        for moment in working.course.moments
        for plane in planes
        if plane in moment.held
    )
    return min(wet)
