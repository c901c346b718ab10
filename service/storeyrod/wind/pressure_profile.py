"""Peak pressure by height, for wind on one side of a building."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from storeyrod.findings import refuse
from storeyrod.trace import Trace
from storeyrod.wind import velocity
from storeyrod.wind.gust_pressures import inland_pressure, simplified_pressure
from storeyrod.wind.site_models import AnyWind, BasicVelocity, GermanAnnex, HeightPressure, PeakPressures, SideName
from storeyrod.wind.tabulated import DEFAULTS, TERRAINS


@dataclass(frozen=True, slots=True)
class HeightRow:
    """Peak pressure in Pa at a height in m; what led to it where it comes from a basic velocity."""

    height: float
    pressure: float
    roughness: float | None = None
    turbulence: float | None = None
    mean_velocity: float | None = None
    exposure: float | None = None


@dataclass
class PressureProfile:
    """Peak pressures for one direction, each height worked out once."""

    read: Callable[[float], HeightRow]
    basic_velocity: float | None = None
    basic_pressure: float | None = None
    rows: dict[float, HeightRow] = field(default_factory=dict)

    def at(self, height: float) -> HeightRow:
        """Peak pressure at a height in m; refused outside the range of its source."""
        if height not in self.rows:
            self.rows[height] = self.read(height)
        return self.rows[height]


_POINTER: Final = "/wind"


def profile_of(wind: AnyWind, side: SideName, trace: Trace) -> PressureProfile:
    """Peak pressures by height for wind on a side; raises ``outside-validity`` when a height is asked for that has none."""
    match wind:
        case BasicVelocity():
            return _from_velocity(wind, side, trace)
        case PeakPressures():
            _refuse_falling_heights(wind.peak_pressures)
            return PressureProfile(lambda height: _given(wind.peak_pressures, height, trace))
        case GermanAnnex() if wind.method == "simplified":
            return PressureProfile(
                lambda height: HeightRow(height, simplified_pressure(wind, wind.building.height_m, trace))
            )
        case GermanAnnex():
            return PressureProfile(lambda height: HeightRow(height, inland_pressure(wind, height, trace)))


def _from_velocity(wind: BasicVelocity, side: SideName, trace: Trace) -> PressureProfile:
    v_b = _basic_velocity(wind, side, trace)
    rho = trace.given(wind.air_density_kg_per_m3, f"{_POINTER}/air_density_kg_per_m3")
    q_b = trace.call(velocity.basic_pressure, rho=rho, v_b=v_b)
    terrain = TERRAINS[wind.terrain]
    z_0 = terrain.roughness_length.read(trace)
    z_min = terrain.least_height.read(trace)
    k_r = trace.call(
        velocity.terrain_factor,
        k_0=DEFAULTS["terrain_constant"].read(trace),
        z_0=z_0,
        z_0II=DEFAULTS["terrain_reference"].read(trace),
        m=DEFAULTS["terrain_exponent"].read(trace),
    )
    c_o = trace.given(wind.orography_factor, f"{_POINTER}/orography_factor")
    k_I = trace.given(wind.turbulence_factor, f"{_POINTER}/turbulence_factor")  # noqa: N806  symbol of the standard
    gust = DEFAULTS["gust"].read(trace)

    def read(height: float) -> HeightRow:
        z_e = trace.call(velocity.height_in_profile, z=height, z_min=z_min)
        c_r = trace.call(velocity.roughness_factor, k_r=k_r, z_e=z_e, z_0=z_0)
        v_m = trace.call(velocity.mean_velocity, c_r=c_r, c_o=c_o, v_b=v_b)
        i_v = trace.call(velocity.turbulence_intensity, k_I=k_I, c_o=c_o, z_e=z_e, z_0=z_0)
        q_p = trace.call(velocity.peak_pressure, g=gust, I_v=i_v, rho=rho, v_m=v_m)
        return HeightRow(height, q_p, c_r, i_v, v_m, trace.call(velocity.exposure_factor, q_p=q_p, q_b=q_b))

    return PressureProfile(read, v_b, q_b)


def _basic_velocity(wind: BasicVelocity, side: SideName, trace: Trace) -> float:
    factors = wind.direction_factors
    pointer = f"{_POINTER}/direction_factors/{side}"
    c_side = 1.0 if factors is None else getattr(factors, side)
    return trace.call(
        velocity.basic_velocity,
        c_dir=trace.given(wind.direction_factor, f"{_POINTER}/direction_factor"),
        c_side=trace.given(c_side, pointer)
        if factors
        else trace.lookup("c_side", 1.0, "count", DEFAULTS["c_dir"].clause),
        c_season=trace.given(wind.season_factor, f"{_POINTER}/season_factor"),
        c_prob=_probability_factor(wind, trace),
        v_b0=_fundamental_velocity(wind, trace),
    )


def _probability_factor(wind: BasicVelocity, trace: Trace) -> float:
    asked = wind.exceedance
    if asked is None:
        return trace.given(wind.probability_factor, f"{_POINTER}/probability_factor")
    pointer = f"{_POINTER}/exceedance"
    return trace.call(
        velocity.probability_factor,
        K=trace.given(asked.shape, f"{pointer}/shape"),
        p=trace.given(asked.annual_fraction, f"{pointer}/annual_fraction"),
        p_ref=DEFAULTS["p_reference"].read(trace),
        n=trace.given(asked.exponent, f"{pointer}/exponent"),
    )


def _fundamental_velocity(wind: BasicVelocity, trace: Trace) -> float:
    given = trace.given(wind.fundamental_velocity_m_per_s, f"{_POINTER}/fundamental_velocity_m_per_s")
    if wind.altitude is None:
        return given
    pointer = f"{_POINTER}/altitude"
    factor = trace.call(
        velocity.altitude_factor,
        a=DEFAULTS["altitude_rate"].read(trace),
        A=trace.given(wind.altitude.altitude_m, f"{pointer}/altitude_m"),
        z=trace.given(wind.altitude.height_m, f"{pointer}/height_m"),
        z_10=DEFAULTS["altitude_height"].read(trace),
        m=DEFAULTS["altitude_exponent"].read(trace),
    )
    return trace.call(velocity.velocity_at_altitude, v_map=given, c_alt=factor)


def _refuse_falling_heights(rows: Sequence[HeightPressure]) -> None:
    for index, (below, above) in enumerate(pairwise(rows), start=1):
        if above.height_m <= below.height_m:
            detail = f"Height {above.height_m:g} m follows {below.height_m:g} m; give rows in rising height, each height once."
            raise refuse("pressures-disordered", f"{_POINTER}/peak_pressures/{index}/height_m", detail)


def _given(rows: Sequence[HeightPressure], height: float, trace: Trace) -> HeightRow:
    if height > rows[-1].height_m:
        detail = (
            f"Wind needs the pressure at {float(height):g} m, and the rows end at {rows[-1].height_m:g} m; add a row for that "
            "height: nothing is taken beyond the last one."
        )
        raise refuse("outside-validity", f"{_POINTER}/peak_pressures/{len(rows) - 1}/height_m", detail)
    index = next(index for index, row in enumerate(rows) if height <= row.height_m)
    pressures = [
        trace.given(row.pressure_pa, f"{_POINTER}/peak_pressures/{at}/pressure_pa") for at, row in enumerate(rows)
    ]
    if index == 0 or height == rows[index].height_m:
        return HeightRow(height, pressures[index])
    heights = [trace.given(row.height_m, f"{_POINTER}/peak_pressures/{at}/height_m") for at, row in enumerate(rows)]
    between = trace.call(
        velocity.pressure_between,
        q_1=pressures[index - 1],
        q_2=pressures[index],
        z=height,
        z_1=heights[index - 1],
        z_2=heights[index],
    )
    return HeightRow(height, between)
