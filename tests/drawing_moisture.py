"""Build-ups with invented months of moisture, for the tests of the drawing room."""

import math
from collections.abc import Sequence
from dataclasses import replace

from storeyrod.drawings.vapour_subject import AirShown, PassedBand, ShownMonth, ShownPlane, VapourSubject

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
OUTSIDE = (-2.8, 0.6, 4.1, 9.2, 14.3, 17.5, 18.5, 17.9, 13.6, 8.8, 3.9, -0.5)


def saturation(temperature: float) -> float:
    """Near enough for a picture."""
    return 610.5 * math.exp(17.269 * temperature / (237.3 + temperature))


WALL = (
    PassedBand("gypsum plaster", 15.0, 0.026, 0.15),
    PassedBand("dense concrete blocks", 100.0, 0.0885, 10.0),
    PassedBand("expanded polystyrene boards", 120.0, 3.871, 7.2),
    PassedBand("adhesive mortar", 8.0, 0.009, 0.4),
    PassedBand("brick slips in mortar", 20.0, 0.0230, 0.9),
)


def planes_of(layers: Sequence[PassedBand], sublayers: int = 4) -> list[ShownPlane]:
    found = [ShownPlane(0, 0.0)]
    for index, layer in enumerate(layers):
        parts = sublayers if layer.resistance > 1.0 and layer.sd is not None else 1
        found += [ShownPlane(index, part / parts) for part in range(1, parts + 1)]
    return found


def month_of(
    layers: Sequence[PassedBand],
    name: str,
    outside: float,
    wet: Sequence[int] = (),
    condensed: float = 0.0,
    held: float = 0.0,
) -> ShownMonth:
    total = 0.13 + sum(layer.resistance for layer in layers) + 0.04
    planes = planes_of(layers)
    inside = [
        sum(layer.resistance for layer in layers[: plane.layer]) + plane.share * layers[plane.layer].resistance
        for plane in planes
    ]
    temperatures = [20.0 - (20.0 - outside) * (0.13 + depth) / total for depth in inside]
    pressures = [
        min(1250.0 - 5.0 * index * (18.0 - outside) / 5.0, saturation(one)) for index, one in enumerate(temperatures)
    ]
    return ShownMonth(
        name, AirShown(20.0, 0.54, 1262.0), AirShown(outside, 0.85, 0.85 * saturation(outside)), temperatures,
        [saturation(one) for one in temperatures], pressures, dict.fromkeys(wet, condensed) if condensed else {},
        dict.fromkeys(wet, held) if held else {},
    )  # fmt: skip


def dry() -> VapourSubject:
    months = [month_of(WALL, name, outside) for name, outside in zip(MONTHS, OUTSIDE, strict=True)]
    return VapourSubject(WALL, planes_of(WALL), months, "Nothing condenses in any month")


def wet(planes: Sequence[int] = (6,), layers: Sequence[PassedBand] = WALL) -> VapourSubject:
    """Condensing from November to February, drying till May."""
    amounts = {
        10: (0.012, 0.012),
        11: (0.034, 0.046),
        0: (0.0415, 0.0875),
        1: (0.02, 0.1075),
        2: (-0.0301, 0.0774),
        3: (-0.06, 0.0174),
        4: (-0.08, 0.0),
    }
    months = [
        month_of(layers, name, outside, planes, *amounts.get(index, (0.0, 0.0)))
        for index, (name, outside) in enumerate(zip(MONTHS, OUTSIDE, strict=True))
    ]
    return VapourSubject(layers, planes_of(layers), months, "Condenses and dries out; greatest 107.5 g/m² in February")


def many_planes() -> VapourSubject:
    """Moisture in a whole zone of the insulation, seven planes."""
    return wet((2, 3, 4, 5, 6, 7, 8))


def tight() -> VapourSubject:
    """A layer without thickness and two that pass no vapour, with nothing known between them."""
    layers = (
        WALL[0], PassedBand("declared lining with a name that is far too long for its column", None, 0.5, 2.0),
        PassedBand("steel sheet", 0.75, 0.0, None), PassedBand("mineral wool", 100.0, 2.86, 0.1),
        PassedBand("steel sheet", 0.75, 0.0, None), PassedBand("render", 10.0, 0.01, 0.2),
    )  # fmt: skip
    planes = planes_of(layers)
    months = []
    for name, outside in zip(MONTHS, OUTSIDE, strict=True):
        month = month_of(layers, name, outside)
        pressures = [
            None if 3 <= plane.layer <= 3 or (plane.layer == 2 and plane.share == 1.0) else one
            for plane, one in zip(planes, month.pressures, strict=True)
        ]
        months.append(ShownMonth(name, month.indoor, month.outdoor, month.temperatures, month.saturations, pressures))
    return VapourSubject(layers, planes, months, "Nothing condenses in any month")


def steady() -> VapourSubject:
    """One block of days, in which moisture condenses."""
    month = month_of(WALL, "60 days", -6.6, (6,), 0.2, 0.2)
    return VapourSubject(WALL, planes_of(WALL), [month], "Condenses; drying is not told")


def damp() -> VapourSubject:
    """Bare sheet metal: a surface so cold that air inside holds more than saturation there."""
    layers = (PassedBand("steel sheet", 1.0, 0.0, None),)
    months = []
    for name, outside in zip(MONTHS, OUTSIDE, strict=True):
        month = month_of(layers, name, outside)
        ends = (min(month.indoor.pressure, month.saturations[0]), month.outdoor.pressure)
        months.append(replace(month, pressures=ends))
    results = "Nothing condenses between layers. Inside surface condenses, 218 % relative humidity: fRsi 0.138, required 0.705"
    caution = "Caution: water condenses on the inside surface."
    return VapourSubject(layers, planes_of(layers), months, results, cautions=[caution])


def many_layers() -> VapourSubject:
    layers = tuple(PassedBand(f"layer {index} of a cross-section", 3.0, 0.1, 0.1 * (index % 3)) for index in range(50))
    return VapourSubject(
        layers,
        planes_of(layers),
        [month_of(layers, name, outside) for name, outside in zip(MONTHS, OUTSIDE, strict=True)],
        "Nothing condenses",
    )


MOISTURE = {
    "dry": dry,
    "wet": wet,
    "many_planes": many_planes,
    "tight": tight,
    "steady": steady,
    "damp": damp,
    "many_layers": many_layers,
}
