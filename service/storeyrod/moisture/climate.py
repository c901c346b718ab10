"""The air on both sides of a section, month by month or block by block."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from storeyrod.findings import refuse
from storeyrod.moisture.humid_air import SaturationConstants, relative_humidity, saturation, vapour_pressure
from storeyrod.moisture.models import (
    AirState,
    Block,
    Climate,
    ConstantIndoors,
    HumidityClass,
    MonthlyClimate,
    OutdoorMonth,
    SteadyClimate,
)
from storeyrod.moisture.rules import HUMIDITY_CLASSES, MOISTURE_RULES
from storeyrod.reference.documents import COMMON_PRACTICE, Clause
from storeyrod.trace import Trace, formula

_CLASSES = Clause("ISO 13788", "Annex A, humidity classes", "memory")
_MARGIN = Clause("ISO 13788", "4.3, margin on the moisture excess", "memory")

_NO_EXCESS: Final = MOISTURE_RULES["no_excess_temperature"]
_SECONDS_OF_A_DAY: Final = MOISTURE_RULES["seconds_of_a_day"]

MONTHS: Final = 12
DAYS: Final = (31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0)
"""Days of the months of a year that is no leap year."""


@dataclass(frozen=True, slots=True)
class Air:
    """Air in degrees Celsius and Pa; saturation pressure at its temperature; pointer of its members."""

    temperature: float
    humidity: float
    pressure: float
    saturation: float
    pointer: str


@dataclass(frozen=True, slots=True)
class Period:
    """A month, counted from 1, or a block: air on both sides and its length in days and seconds."""

    label: int | Literal["condensing", "drying"]
    outdoor: Air
    indoor: Air
    days: float
    seconds: float

    @property
    def temperatures(self) -> tuple[float, float]:
        """Indoors and outdoors, in degrees Celsius."""
        return self.indoor.temperature, self.outdoor.temperature

    @property
    def pressures(self) -> tuple[float, float]:
        """Vapour pressure indoors and outdoors, in Pa."""
        return self.indoor.pressure, self.outdoor.pressure

    @property
    def warmer_inside(self) -> bool:
        """Whether surface factors mean anything."""
        return self.indoor.temperature > self.outdoor.temperature


@formula(
    symbol="dp",
    expression="dp_0 * Min(1, Max(0, 1 - theta_e / theta_0))",
    unit="pa",
    inputs={"dp_0": "pa", "theta_e": "deg_c", "theta_0": "deg_c"},
    clause=_CLASSES,
)
def moisture_excess(*, dp_0: float, theta_e: float, theta_0: float) -> float:
    """Excess of indoor vapour pressure: that of the class up to 0 degrees Celsius, falling to none at 20."""
    return dp_0 * min(1.0, max(0.0, 1.0 - theta_e / theta_0))


@formula(
    symbol="p_i",
    expression="p_e + n * dp",
    unit="pa",
    inputs={"p_e": "pa", "n": "count", "dp": "pa"},
    clause=_MARGIN,
)
def indoor_pressure(*, p_e: float, n: float, dp: float) -> float:
    """Indoor vapour pressure for design: that outdoors and the excess with its margin."""
    return p_e + n * dp


@formula(
    symbol="t",
    expression="D * t_day",
    unit="s",
    inputs={"D": "count", "t_day": "s"},
    clause=Clause("SI brochure", "table 8, day", "memory"),
)
def duration(*, D: float, t_day: float) -> float:  # noqa: N803
    """Length of a period of so many days."""
    return D * t_day


def periods_of(climate: Climate, pointer: str, known: SaturationConstants, trace: Trace) -> tuple[Period, ...]:
    """Twelve months, or one or two blocks; refuses years of other lengths and air that holds more vapour than it can."""
    if isinstance(climate, SteadyClimate):
        return _blocks(climate, pointer, known, trace)
    return _months(climate, pointer, known, trace)


def _blocks(climate: SteadyClimate, pointer: str, known: SaturationConstants, trace: Trace) -> tuple[Period, ...]:
    made = [_block("condensing", climate, pointer, known, trace)]
    if climate.drying is not None:
        made.append(_block("drying", climate.drying, f"{pointer}/drying", known, trace))
    return tuple(made)


def _block(
    label: Literal["condensing", "drying"],
    block: SteadyClimate | Block,
    pointer: str,
    known: SaturationConstants,
    trace: Trace,
) -> Period:
    outdoor = _air(block.outdoor, f"{pointer}/outdoor", known, trace)
    indoor = _air(block.indoor, f"{pointer}/indoor", known, trace)
    days = trace.given(block.days, f"{pointer}/days")
    return Period(label, outdoor, indoor, days, _seconds(days, trace))


def _months(climate: MonthlyClimate, pointer: str, known: SaturationConstants, trace: Trace) -> tuple[Period, ...]:
    _twelve(climate.months, f"{pointer}/months")
    indoor = climate.indoor
    if not isinstance(indoor, HumidityClass | ConstantIndoors):
        _twelve(indoor.months, f"{pointer}/indoor/months")
    made = tuple(_month(at, month, climate, pointer, known, trace) for at, month in enumerate(climate.months))
    if not any(period.warmer_inside for period in made):
        raise refuse(
            "indoor-colder",
            f"{pointer}/indoor",
            "in no month is it warmer indoors than outdoors; months are for heated buildings: check the signs, or give a steady climate",
        )
    return made


def _month(
    at: int, month: OutdoorMonth, climate: MonthlyClimate, pointer: str, known: SaturationConstants, trace: Trace
) -> Period:
    here = f"{pointer}/months/{at}"
    outdoor = _air(month, here, known, trace)
    indoor = _indoor(at, climate, outdoor, f"{pointer}/indoor", known, trace)
    if month.days is None:
        days = trace.lookup("D", DAYS[at], "count", COMMON_PRACTICE)
    else:
        days = trace.given(month.days, f"{here}/days")
    return Period(at + 1, outdoor, indoor, days, _seconds(days, trace))


def _indoor(
    at: int, climate: MonthlyClimate, outdoor: Air, pointer: str, known: SaturationConstants, trace: Trace
) -> Air:
    indoor = climate.indoor
    if isinstance(indoor, ConstantIndoors):
        return _air(indoor, pointer, known, trace)
    if isinstance(indoor, HumidityClass):
        return _by_class(indoor, outdoor, pointer, known, trace)
    return _air(indoor.months[at], f"{pointer}/months/{at}", known, trace)


def _by_class(indoor: HumidityClass, outdoor: Air, pointer: str, known: SaturationConstants, trace: Trace) -> Air:
    theta_i = trace.given(indoor.temperature_deg_c, f"{pointer}/temperature_deg_c")
    excess = trace.call(
        moisture_excess,
        dp_0=HUMIDITY_CLASSES[str(indoor.humidity_class)].read(trace),
        theta_e=outdoor.temperature,
        theta_0=_NO_EXCESS.read(trace),
    )
    margin = trace.given(indoor.margin_factor, f"{pointer}/margin_factor")
    pressure = trace.call(indoor_pressure, p_e=outdoor.pressure, n=margin, dp=excess)
    p_sat = saturation(theta_i, known, trace)
    if pressure > p_sat:
        raise refuse(
            "indoor-air-oversaturated",
            pointer,
            f"the class makes indoor air of {theta_i:g} °C hold {pressure:.0f} Pa of vapour, {p_sat:.0f} Pa is the most; take another "
            "class, a higher indoor temperature, or give the indoor air by months",
        )
    return Air(theta_i, trace.call(relative_humidity, p_v=pressure, p_sat=p_sat), pressure, p_sat, pointer)


def _air(
    state: AirState | OutdoorMonth | ConstantIndoors, pointer: str, known: SaturationConstants, trace: Trace
) -> Air:
    if state.humidity_fraction > 1.0:
        raise refuse(
            "humidity-over-one",
            f"{pointer}/humidity_fraction",
            f"humidity {state.humidity_fraction:g} is over 1; give a fraction, such as 0.8 for 80 %",
        )
    theta = trace.given(state.temperature_deg_c, f"{pointer}/temperature_deg_c")
    phi = trace.given(state.humidity_fraction, f"{pointer}/humidity_fraction")
    p_sat = saturation(theta, known, trace)
    return Air(theta, phi, trace.call(vapour_pressure, phi=phi, p_sat=p_sat), p_sat, pointer)


def _twelve(months: Sequence[object], pointer: str) -> None:
    if len(months) != MONTHS:
        raise refuse(
            "months-not-twelve",
            pointer,
            f"the list holds {len(months)} months; give {MONTHS}, from January to December",
        )


def _seconds(days: float, trace: Trace) -> float:
    return trace.call(duration, D=days, t_day=_SECONDS_OF_A_DAY.read(trace))
