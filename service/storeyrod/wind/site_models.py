"""What a request says of the wind: where its pressure comes from, the building, and national choices."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.units import quantity
from storeyrod.wind.tabulated import CLADDING_FACTOR, DEFAULTS

SideName = Literal["front", "right", "rear", "left"]
"""Sides of the plan, as they follow to the right seen from outside; as a direction, the side on which the wind blows."""

NationalChoice = Literal["recommended", "united_kingdom", "ireland", "germany", "other_annex"]

_NOTE_INTERNAL = Clause("EN 1991-1-4", "7.2.9(6) note 2, +0.2 and -0.3", "memory")
_CP1 = Clause("EN 1991-1-4", "7.2.1(1), areas up to 1 m2", "memory")
_GERMAN_ALTITUDE = Clause("DIN EN 1991-1-4/NA", "Annex NA.A, places over 800 m", "memory")
_RECOMMENDED = Clause("EN 1991-1-4", "recommended values", "memory")


def _each_once(directions: list[SideName]) -> list[SideName]:
    """The directions; refused where one is named twice."""
    if len(set(directions)) < len(directions):
        raise PydanticCustomError("repeated_item", "name each direction once")
    return directions


class Building(Closed):
    """The building as a box: sizes over all, height from the ground to the top, parapets included."""

    breadth_m: Annotated[float, quantity("m", 1.0, 2000.0, "Length of front and rear.")]
    depth_m: Annotated[float, quantity("m", 1.0, 2000.0, "Length of right and left side.")]
    height_m: Annotated[float, quantity("m", 1.0, 1000.0, "From the ground to the top.")]


class InternalNotEstimated(Closed):
    """Openings in the walls are not known: the worse of +0.2 and -0.3."""

    kind: Literal["not_estimated"]


class InternalOnBackground(Closed):
    """An airtight wall behind the boards takes the internal pressure; none acts on the cladding."""

    kind: Literal["on_background"]


class InternalDeclared(Closed):
    """A coefficient of the designer's."""

    kind: Literal["declared"]
    coefficient: Annotated[float, quantity("count", -2.0, 2.0, "Internal pressure coefficient; pressure is positive.")]


class InternalDominantFace(Closed):
    """One side has most of the openings, and its outside pressure stands inside too."""

    kind: Literal["dominant_face"]
    side: Annotated[SideName, Field(description="Side that has the openings.")]
    ratio: Annotated[
        Literal["twice", "three_times"],
        Field(
            description="Openings of this side against those of all others: at least twice, or at least three times as large."
        ),
    ]


InternalPressure = Annotated[
    InternalNotEstimated | InternalOnBackground | InternalDeclared | InternalDominantFace, Field(discriminator="kind")
]


class DirectionFactors(Closed):
    """Factors on the basic velocity by the side on which the wind blows."""

    front: Annotated[
        float, quantity("count", 0.3, 1.5, "Wind on the front."), Assumed("count", DEFAULTS["c_dir"].clause)
    ] = 1.0
    right: Annotated[
        float, quantity("count", 0.3, 1.5, "Wind on the right side."), Assumed("count", DEFAULTS["c_dir"].clause)
    ] = 1.0
    rear: Annotated[
        float, quantity("count", 0.3, 1.5, "Wind on the rear."), Assumed("count", DEFAULTS["c_dir"].clause)
    ] = 1.0
    left: Annotated[
        float, quantity("count", 0.3, 1.5, "Wind on the left side."), Assumed("count", DEFAULTS["c_dir"].clause)
    ] = 1.0


class AnyWindSite(Closed):
    """What every wind site has."""

    building: Building
    national_choice: Annotated[
        NationalChoice,
        Field(
            description="Whose choices hold for wall coefficients and loaded area. The United Kingdom and Ireland read pressures from "
            "graphs: give peak_pressures. other_annex: recommended values are used and must be held against that annex."
        ),
        Assumed("", _RECOMMENDED, "recommended values; the national annex of the place decides"),
    ] = "recommended"
    loaded_area_m2: Annotated[
        float,
        quantity("m2", 0.01, 100_000.0, "Area that loads one board or one fastener."),
        Assumed("m2", _CP1),
    ] = 1.0
    internal_pressure: Annotated[InternalPressure, Assumed("", _NOTE_INTERNAL, "openings are not known")] = (
        InternalNotEstimated(kind="not_estimated")
    )
    structural_factor: Annotated[
        float, quantity("count", 0.5, 3.0, "Factor c_s c_d on external pressure."), Assumed("count", CLADDING_FACTOR)
    ] = 1.0
    ground_y_mm: Annotated[
        float,
        quantity("mm", -500_000.0, 500_000.0, "Level of the ground in the coordinates of the elevations."),
        Assumed("mm", HOUSE, "the ground is at y = 0"),
    ] = 0.0
    strip_height_m: Annotated[
        float,
        quantity("m", 1.0, 200.0, "Height of the strips between the lower and upper part of a tall windward wall."),
        Assumed("m", HOUSE),
    ] = 10.0
    directions: Annotated[
        list[SideName],
        Field(
            min_length=1,
            max_length=4,
            fail_fast=True,
            description="Sides on which the wind blows, each once; leave out none but for study.",
            json_schema_extra={"uniqueItems": True},
        ),
        AfterValidator(_each_once),
    ] = ["front", "right", "rear", "left"]


class Exceedance(Closed):
    """The yearly probability that the basic velocity is exceeded, where it is not 0.02."""

    annual_fraction: Annotated[float, quantity("fraction", 0.0001, 0.5, "Probability in one year.")]
    shape: Annotated[
        float, quantity("count", 0.01, 1.0, "Shape K of the distribution."), Assumed("count", DEFAULTS["K"].clause)
    ] = 0.2
    exponent: Annotated[float, quantity("count", 0.1, 2.0, "Exponent n."), Assumed("count", DEFAULTS["n"].clause)] = 0.5


class Altitude(Closed):
    """Altitude of the site, where the velocity is a map value of the United Kingdom for sea level."""

    altitude_m: Annotated[float, quantity("m", 0.0, 3000.0, "Altitude of the site above sea level.")]
    height_m: Annotated[float, quantity("m", 0.0, 200.0, "Height above ground for which the factor is taken.")]


class BasicVelocity(AnyWindSite):
    """Pressure from the basic wind velocity, terrain and height."""

    kind: Literal["basic_velocity"]
    fundamental_velocity_m_per_s: Annotated[
        float, quantity("m_per_s", 5.0, 100.0, "Mean of 10 minutes at 10 m over open country, once in 50 years.")
    ]
    direction_factor: Annotated[
        float, quantity("count", 0.3, 1.5, "Factor for all directions."), Assumed("count", DEFAULTS["c_dir"].clause)
    ] = 1.0
    direction_factors: Annotated[
        DirectionFactors | None, Field(description="Factors that differ by side, each times direction_factor.")
    ] = None
    season_factor: Annotated[
        float, quantity("count", 0.3, 1.5, "Seasonal factor."), Assumed("count", DEFAULTS["c_season"].clause)
    ] = 1.0
    probability_factor: Annotated[
        float,
        quantity("count", 0.3, 2.0, "Factor for another probability than 0.02 a year; or give exceedance."),
        Assumed("count", DEFAULTS["c_prob"].clause),
    ] = 1.0
    exceedance: Annotated[Exceedance | None, Field(description="Probability from which that factor is calculated.")] = (
        None
    )
    altitude: Annotated[
        Altitude | None,
        Field(
            description="For a map value at sea level that is to be raised by the altitude of the site, as the UK annex does."
        ),
    ] = None
    terrain: Annotated[
        Literal["0", "I", "II", "III", "IV"],
        Field(
            description="0 sea and open coast; I lakes and flat land; II low growth and single obstacles; III villages, suburbs, forest; "
            "IV at least 15 % built over by buildings over 15 m on average."
        ),
    ]
    orography_factor: Annotated[
        float,
        quantity("count", 1.0, 3.0, "Factor for hills and cliffs; 1 where the slope upwind is under 3 degrees."),
        Assumed("count", DEFAULTS["c_o"].clause, "flat ground"),
    ] = 1.0
    turbulence_factor: Annotated[
        float, quantity("count", 0.5, 2.0, "Turbulence factor."), Assumed("count", DEFAULTS["k_I"].clause)
    ] = 1.0
    air_density_kg_per_m3: Annotated[
        float, quantity("kg_per_m3", 0.5, 1.5, "Density of air."), Assumed("kg_per_m3", DEFAULTS["rho"].clause)
    ] = 1.25

    def idle_members(self) -> frozenset[str]:
        """A probability takes the place of its factor."""
        return frozenset({"probability_factor"}) if self.exceedance is not None else frozenset()


class HeightPressure(Closed):
    """Peak pressure at a height, as read from an annex."""

    height_m: Annotated[float, quantity("m", 0.1, 1000.0, "Height above ground.")]
    pressure_pa: Annotated[float, quantity("pa", 50.0, 20_000.0, "Peak velocity pressure.")]


class PeakPressures(AnyWindSite):
    """Pressures given, as where an annex has graphs or tables: straight between rows, the first one's below it."""

    kind: Literal["peak_pressures"]
    peak_pressures: Annotated[
        list[HeightPressure],
        Field(
            min_length=1,
            max_length=100,
            fail_fast=True,
            description="Rows in rising height; the last must reach the building's height.",
        ),
    ]


class GermanAnnex(AnyWindSite):
    """Pressures of the German annex by wind zone."""

    kind: Literal["german_annex"]
    zone: Annotated[Literal[1, 2, 3, 4], Field(description="Wind zone of the place.")]
    region: Annotated[
        Literal["inland", "coast", "north_sea_island"],
        Field(description="coast: coast and islands of the Baltic, in zone 4 the North Sea coast too."),
    ]
    method: Annotated[
        Literal["simplified", "inland_profile"],
        Field(
            description="simplified: one pressure over the height, for buildings up to 25 m; inland_profile: by height."
        ),
    ] = "simplified"
    altitude_m: Annotated[
        float,
        quantity(
            "m", -500.0, 3000.0, "Altitude of the place: over 800 m pressures are raised, over 1100 m nothing is known."
        ),
        Assumed("m", _GERMAN_ALTITUDE, "the place lies no higher than 800 m"),
    ] = 0.0

    def idle_members(self) -> frozenset[str]:
        """The kind is the choice of a country."""
        return frozenset({"national_choice"})


WindSite = Annotated[BasicVelocity | PeakPressures | GermanAnnex, Field(discriminator="kind")]
AnyWind = BasicVelocity | PeakPressures | GermanAnnex
