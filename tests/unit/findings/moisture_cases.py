"""Cases of findings and refusals about moisture: a request that triggers each, and one just inside that does not.

A plain section is one resistance of 0.83 m2.K/W between surfaces of 0.13 and 0.04: 1.00 in all, 1.12 with 0.25 inside.
"""

from typing import Any, Final

from moisture_requests import air, body, by_class, monthly, months, resistance, solid, steady

Request = dict[str, Any]
MOISTURE: Final = "moisture"
PLAIN: Final = [resistance(0.83, 1.0)]
FOIL: Final = resistance(0.0, vapour_tight=True)
VENTED: Final = {"kind": "air", "thickness_mm": 25, "ventilation": "slight", "opening_mm2_per_m": 600}


def studs(**part: Any) -> Request:
    """A bridged layer of two parts, the first with the members given."""
    return {
        "kind": "bridged", "name": "frame", "thickness_mm": 100,
        "parts": [
            {"name": "wool", "fraction": 0.9, "conductivity_w_per_m_k": 0.04, **part},
            {"name": "stud", "fraction": 0.1, "conductivity_w_per_m_k": 0.13, "vapour_resistance_factor": 50},
        ],
    }  # fmt: skip


def wet(outdoors: float = -5, sd: float = 1.0, **climate: Any) -> Request:
    """Vapour of 20 degrees and 50 % indoors, through insulation to a tight sheet with 0.96 of the resistance inside it."""
    return body([resistance(0.83, sd), FOIL], {**steady(air(20, 0.5), air(outdoors, 0.8), days=39), **climate})


def drying(days: float) -> Request:
    """A block of 20 degrees and 10 % on both sides."""
    return {"days": days, "indoor": air(20, 0.1), "outdoor": air(20, 0.1)}


def humid(percent: float, temperature: float = 0.0) -> Request:
    """The plain section at 20 degrees and so much humidity indoors, and a dry outdoors of one temperature."""
    return body(PLAIN, steady(air(20, percent / 100), air(temperature, 0.3)))


MOISTURE_FINDINGS: Final[dict[str, tuple[str, Request, Request]]] = {
    "bridged-section": (MOISTURE, body([studs(vapour_resistance_factor=1)]), body([solid(100, 0.04, 1)])),
    "ventilation-not-credited": (
        MOISTURE,
        body([*PLAIN, VENTED]),
        body([*PLAIN, {**VENTED, "ventilation": "none", "opening_mm2_per_m": 500}]),
    ),
    "sealed-between-tight-layers": (MOISTURE, body([FOIL, *PLAIN, FOIL]), body([FOIL, FOIL, *PLAIN])),
    "indoor-not-warmer": (
        MOISTURE,
        body(PLAIN, steady(air(20, 0.5), air(20, 0.5))),
        body(PLAIN, steady(air(20, 0.5), air(19.9, 0.5))),
    ),
    # Factor 0.87/1.12 = 0.77679 at 0 degrees outside: the surface has 15.536 degrees and saturates at 1764.0 Pa, 75.48 % of 2336.95.
    "surface-condensation": (MOISTURE, humid(75.6), humid(75.4)),
    # Saturated outdoor air meets a surface that is colder by a hair, or just as warm.
    "external-surface-condensation": (
        MOISTURE,
        body(PLAIN, steady(air(20, 0.5), air(20.1, 1.0))),
        body(PLAIN, steady(air(20, 0.5), air(20.0, 1.0))),
    ),
    # 80 % of 1764.0 Pa are 1411.2 Pa: 60.39 % at 20 degrees.
    "mould-risk": (MOISTURE, humid(60.5), humid(60.3)),
    "junctions-open": (MOISTURE, humid(60.3), humid(60.5)),
    "surface-factor-out-of-reach": (MOISTURE, humid(80.1), humid(79.9)),
    # At -5 degrees outside the sheet has 20 - 25 x 0.96 = -4, where vapour over ice saturates at 436.9 Pa: 18.70 % of 2336.95.
    "condensation-in-section": (
        MOISTURE,
        wet(indoor=air(20, 0.188), drying=drying(30)),
        wet(indoor=air(20, 0.186), drying=drying(30)),
    ),
    # 2e-10 x (1168.5 - 436.9) / 1 m x 86400 s make 12.64 g/m2 a day: 0.5 kg/m2 after 39.55 days.
    "condensate-large": (MOISTURE, wet(days=39.7), wet(days=39.4)),
    # 20 - 0.96 x (20 - theta) is 0 at -0.833 degrees outside.
    "condensate-freezes": (MOISTURE, wet(outdoors=-0.84), wet(outdoors=-0.83)),
    # 731.6 Pa for 39 days against 2337.0 - 233.7 = 2103.3 Pa: 13.57 days.
    "condensation-remains": (MOISTURE, wet(drying=drying(13.5)), wet(drying=drying(13.6))),
    "drying-not-assessed": (MOISTURE, wet(), wet(drying=drying(1))),
}
"""By code of ``FINDINGS``."""

EVEN: Final = [air(0, 0.5)] * 12

MOISTURE_REFUSALS: Final[dict[str, tuple[str, Request, Request]]] = {
    "months-not-twelve": (
        MOISTURE,
        body(PLAIN, monthly(outdoor=months()[:11])),
        body(PLAIN, monthly(outdoor=months())),
    ),
    "humidity-over-one": (
        MOISTURE,
        body(PLAIN, steady(air(20, 1.0001), air(0, 0.5))),
        body(PLAIN, steady(air(20, 1.0), air(0, 0.5))),
    ),
    # Class 5 adds 1.1 x 1360 = 1496 Pa to 610.5 Pa times the humidity; 1936.7 Pa saturate at 17 degrees: humidity 0.7218.
    "indoor-air-oversaturated": (
        MOISTURE,
        body(PLAIN, monthly(by_class(5, temperature_deg_c=17), outdoor=[air(0, 0.73)] * 12)),
        body(PLAIN, monthly(by_class(5, temperature_deg_c=17), outdoor=[air(0, 0.71)] * 12)),
    ),
    "indoor-colder": (
        MOISTURE,
        body(PLAIN, monthly({"kind": "constant", **air(0.0, 0.5)}, outdoor=EVEN)),
        body(PLAIN, monthly({"kind": "constant", **air(0.1, 0.5)}, outdoor=EVEN)),
    ),
    "vapour-data-missing": (MOISTURE, body([solid(100, 0.04)]), body([solid(100, 0.04, 1)])),
    "vapour-data-contradictory": (
        MOISTURE,
        body([solid(100, 0.04, 1, vapour_sd_m=0.1)]),
        body([solid(100, 0.04, vapour_sd_m=0.1)]),
    ),
    "vapour-resistance-none": (MOISTURE, body([resistance(0.83, 9e-7)]), body([resistance(0.83, 1e-6)])),
    "section-part-wrong": (
        MOISTURE,
        body([studs(vapour_resistance_factor=1)], section_parts=[{"layer": 0, "part": 2}]),
        body([studs(vapour_resistance_factor=1)], section_parts=[{"layer": 0, "part": 1}]),
    ),
}
"""By slug of ``REFUSALS``."""
