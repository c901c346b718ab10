"""What a vapour pressure sheet draws of a moisture check: its section, and its months or blocks as they went."""

from collections.abc import Iterator, Mapping
from typing import Final

from storeyrod.drawings.vapour_subject import AirShown, PassedBand, ShownMonth, ShownPlane, VapourSubject
from storeyrod.moisture.climate import Air, Period
from storeyrod.moisture.result_models import Condensation
from storeyrod.moisture.section import Plane
from storeyrod.moisture.working import MoistureWorking

MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip

_VERDICTS: Final = {
    "none": "Nothing condenses between layers",
    "dries_out": "Condenses between layers and dries out",
    "remains": "Condenses between layers and does not dry out",
}
_NOT_ASKED: Final = "Condenses between layers; whether it dries was not asked"
_NO_AMOUNT: Final = "; how much is not worked out"
"""Said of surfaces without a film that holds vapour back; with one they are planes like others."""

_SURFACES: Final = {
    "none": "Inside surface",
    "mould_risk": "Inside surface at risk of mould",
    "condenses": "Inside surface condenses",
}
_GRAMS: Final = 1000.0


def moisture_subject(working: MoistureWorking, condensation: Condensation, month: int | None = None) -> VapourSubject:
    """The subject; ``month`` is 1 for January. Planes of air films at the surfaces are left out."""
    places = {layer.index: place for place, layer in enumerate(working.section.layers)}
    kept = [index for index, plane in enumerate(working.section.planes) if not plane.film]
    return VapourSubject(
        tuple(_bands(working)),
        [_plane(working.section.planes[index], places) for index in kept],
        [_month(working, at, kept) for at in range(len(working.periods))],
        _results(working, condensation),
        None if month is None else month - 1,
        list(_cautions(working, condensation)),
    )


def _bands(working: MoistureWorking) -> Iterator[PassedBand]:
    for passed in working.section.layers:
        thickness = getattr(passed.layer, "thickness_mm", None)
        sd = None if passed.sd is None else float(passed.sd)
        yield PassedBand(passed.name, thickness, float(passed.resistance), sd)


def _plane(plane: Plane, places: Mapping[int, int]) -> ShownPlane:
    if plane.inside is None:
        return ShownPlane(0, 0.0)
    return ShownPlane(places[plane.inside], 1.0 if plane.within is None else plane.within)


def _month(working: MoistureWorking, at: int, kept: list[int]) -> ShownMonth:
    period, moment, profile = working.periods[at], working.moments[at], working.course.profiles[at]
    numbers = {plane: number for number, plane in enumerate(kept)}
    return ShownMonth(
        _name(period),
        _air(period.indoor),
        _air(period.outdoor),
        [float(profile.temperatures[plane]) for plane in kept],
        [float(profile.saturations[plane]) for plane in kept],
        [working.pressures[at][plane] for plane in kept],
        {numbers[plane]: change for plane, change in moment.changes.items() if plane in numbers},
        {numbers[plane]: held for plane, held in moment.held.items() if plane in numbers},
    )


def _name(period: Period) -> str:
    if isinstance(period.label, int):
        return MONTHS[period.label - 1]
    drying = "drying, " if period.label == "drying" else ""
    return f"{drying}{period.days:g} day{'s' if period.days > 1.0 else ''}"


def _air(air: Air) -> AirShown:
    return AirShown(float(air.temperature), float(air.pressure / air.saturation), float(air.pressure))


def _results(working: MoistureWorking, condensation: Condensation) -> str:
    return f"{_between_layers(condensation)}. {_surface(working, condensation)}"


def _between_layers(condensation: Condensation) -> str:
    verdict = condensation.get("verdict")
    words = _VERDICTS[verdict] if verdict is not None else _NOT_ASKED
    if condensation["greatest_accumulated_kg_per_m2"] > 0.0:
        words += f"; greatest {_GRAMS * condensation['greatest_accumulated_kg_per_m2']:.1f} g/m²"
        if "greatest_month" in condensation:
            words += f", {MONTHS[condensation['greatest_month'] - 1]}"
    return words


def _surface(working: MoistureWorking, condensation: Condensation) -> str:
    """The verdict on the inside surface, its greatest humidity where that is over saturation, and its factors."""
    words = _SURFACES[condensation["surface_verdict"]]
    if working.surface.humidity > 1.0:
        words += f", {100.0 * working.surface.humidity:.0f} % relative humidity"
    words += f": fRsi {condensation['surface_factor']:.3f}"
    if "surface_factor_required" in condensation:
        words += f", required {condensation['surface_factor_required']:.3f}"
    return words


def _cautions(working: MoistureWorking, condensation: Condensation) -> Iterator[str]:
    if condensation["surface_verdict"] == "condenses":
        counted = working.section.planes[0].film
        yield f"Caution: water condenses on the inside surface{'' if counted else _NO_AMOUNT}."
    if condensation["surface_verdict"] == "mould_risk":
        yield "Caution: the inside surface is colder than what keeps mould off."
    if working.over_saturation[1] is not None:
        yield f"Caution: water condenses on the outside surface{_NO_AMOUNT}."
    if condensation.get("verdict") == "remains":
        yield "Caution: moisture between layers does not dry out."
    if "verdict" not in condensation:
        yield "Caution: whether moisture between layers dries was not asked."
