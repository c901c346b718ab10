"""From declared to design conductivity: temperature, moisture and ageing."""

from math import exp
from typing import Final, Literal

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.conversion_tables import around, clause_of, conversion_row
from storeyrod.thermal.declared_models import Conversion, DeclaredLayer, MoistureConversion
from storeyrod.thermal.material_models import MoistureCoefficient
from storeyrod.thermal.variation import on_other_inputs
from storeyrod.trace import Trace, formula

_TEMPERATURE = Clause("ISO 10456", "7.2, conversion for temperature", "memory")
_MOISTURE = Clause("ISO 10456", "7.3, conversion for moisture", "memory")
_ALL = Clause("ISO 10456", "7.1", "memory")
_BETWEEN = Clause("ISO 10456", "table 4, between tabulated conductivities", "memory")

LEAST_CONDUCTIVITY: Final = 0.001
GREATEST_CONDUCTIVITY: Final = 500.0
"""In W/(m.K), the bounds of every conductivity of a request."""

_TEMPERATURE_MEMBERS: Final = ("temperature_coefficient_per_k", "temperature_declared_deg_c")
_MOST_BY_VOLUME: Final = 1.0
"""Of 1 m3 of material no more than 1 m3 is water; by mass, light materials hold several times their own."""

_AS_DECLARED: Final = 1.0
"""Factor of a condition that stays as declared."""


@formula(
    symbol="F_T",
    expression="exp(f_T * (theta_2 - theta_1))",
    unit="fraction",
    inputs={"f_T": "per_k", "theta_2": "deg_c", "theta_1": "deg_c"},
    clause=_TEMPERATURE,
)
def temperature_factor(*, f_T: float, theta_2: float, theta_1: float) -> float:  # noqa: N803  symbol of the standard
    """What another mean temperature multiplies the conductivity by."""
    return exp(f_T * (theta_2 - theta_1))


@formula(
    symbol="F_m",
    expression="exp(f_w * (w_2 - w_1))",
    unit="fraction",
    inputs={"f_w": "count", "w_2": "fraction", "w_1": "fraction"},
    clause=_MOISTURE,
)
def moisture_factor(*, f_w: float, w_2: float, w_1: float) -> float:
    """What another moisture content multiplies the conductivity by; contents and coefficient by mass or by volume."""
    return exp(f_w * (w_2 - w_1))


@formula(
    symbol="lambda_2",
    expression="lambda_1 * F_T * F_m * F_a",
    unit="w_per_m_k",
    inputs={"lambda_1": "w_per_m_k", "F_T": "fraction", "F_m": "fraction", "F_a": "fraction"},
    clause=_ALL,
)
def converted(*, lambda_1: float, F_T: float, F_m: float, F_a: float) -> float:  # noqa: N803  symbols of the standard
    """Conductivity under other conditions."""
    return lambda_1 * F_T * F_m * F_a


@formula(
    symbol="f_T",
    expression="f_a + (f_b - f_a) * (lambda_1 - lambda_a) / (lambda_b - lambda_a)",
    unit="per_k",
    inputs={
        "f_a": "per_k",
        "f_b": "per_k",
        "lambda_1": "w_per_m_k",
        "lambda_a": "w_per_m_k",
        "lambda_b": "w_per_m_k",
    },
    clause=_BETWEEN,
)
def coefficient_between(*, f_a: float, f_b: float, lambda_1: float, lambda_a: float, lambda_b: float) -> float:
    """Coefficient for temperature between two tabulated conductivities, on the straight line."""
    return f_a + (f_b - f_a) * (lambda_1 - lambda_a) / (lambda_b - lambda_a)


def design_conductivity(layer: DeclaredLayer, pointer: str, trace: Trace) -> float:
    """Design conductivity in W/(m.K) of a layer by its declared one."""
    declared = trace.given(layer.conductivity_declared_w_per_m_k, f"{pointer}/conductivity_declared_w_per_m_k")
    conversion, here = layer.conversion, f"{pointer}/conversion"
    _check_temperatures(conversion, here)
    design = trace.call(
        converted,
        lambda_1=declared,
        F_T=_by_temperature(layer, declared, here, trace),
        F_m=_by_moisture(conversion, here, trace),
        F_a=trace.given(conversion.ageing_factor, f"{here}/ageing_factor"),
    )
    if not on_other_inputs(trace) and not LEAST_CONDUCTIVITY <= design <= GREATEST_CONDUCTIVITY:
        raise refuse(
            "outside-validity",
            here,
            f"this makes a conductivity of {design:.3g} W/(m.K), and {LEAST_CONDUCTIVITY:g} to {GREATEST_CONDUCTIVITY:g} is what "
            "materials have; check temperatures, contents and coefficients",
        )
    return design


def _check_temperatures(conversion: Conversion, pointer: str) -> None:
    """Refuse an unknown material, and temperatures or a coefficient that no temperature in the wall makes use of."""
    if conversion.material is not None:
        conversion_row(conversion.material, f"{pointer}/material")
    if conversion.temperature_design_deg_c is not None:
        return
    for name in _TEMPERATURE_MEMBERS:
        if name in conversion.model_fields_set and getattr(conversion, name) is not None:
            raise refuse(
                "conversion-contradictory",
                f"{pointer}/{name}",
                f"{name} converts nothing without temperature_design_deg_c; give that too, or leave this out",
            )


def _by_temperature(layer: DeclaredLayer, declared: float, pointer: str, trace: Trace) -> float:
    conversion = layer.conversion
    if conversion.temperature_design_deg_c is None:
        return trace.lookup("F_T", _AS_DECLARED, "fraction", _TEMPERATURE)
    return trace.call(
        temperature_factor,
        f_T=temperature_coefficient(layer, declared, pointer, trace),
        theta_2=trace.given(conversion.temperature_design_deg_c, f"{pointer}/temperature_design_deg_c"),
        theta_1=trace.given(conversion.temperature_declared_deg_c, f"{pointer}/temperature_declared_deg_c"),
    )


def temperature_coefficient(layer: DeclaredLayer, declared: float, pointer: str, trace: Trace) -> float:
    """Coefficient per kelvin of a layer: as given, else of its material at the conductivity declared, on straight lines."""
    conversion, given = layer.conversion, layer.conversion.temperature_coefficient_per_k
    if given is not None:
        return trace.given(given, f"{pointer}/temperature_coefficient_per_k")
    row = conversion_row(_material(conversion, f"{pointer}/temperature_coefficient_per_k"), f"{pointer}/material")
    rows = row.get("temperature", [])
    pair = around(rows, layer.conductivity_declared_w_per_m_k)
    if pair is None:
        raise _no_coefficient(layer, pointer, [one["conductivity_w_per_m_k"] for one in rows])
    (low, high), clause = pair, clause_of(row)
    f_a = trace.lookup("f_T", low["coefficient_per_k"], "per_k", clause)
    if low is high:
        return f_a
    return trace.call(
        coefficient_between,
        f_a=f_a,
        f_b=trace.lookup("f_T", high["coefficient_per_k"], "per_k", clause),
        lambda_1=declared,
        lambda_a=trace.lookup("lambda_", low["conductivity_w_per_m_k"], "w_per_m_k", clause),
        lambda_b=trace.lookup("lambda_", high["conductivity_w_per_m_k"], "w_per_m_k", clause),
    )


def _no_coefficient(layer: DeclaredLayer, pointer: str, listed: list[float]) -> Exception:
    name = layer.conversion.material
    reach = f"only from {min(listed):g} to {max(listed):g} W/(m.K)" if listed else "none"
    return refuse(
        "outside-validity",
        f"{pointer}/temperature_coefficient_per_k",
        f"of {name} the table gives coefficients for temperature {reach}, and {layer.conductivity_declared_w_per_m_k:g} "
        "is declared; give temperature_coefficient_per_k",
    )


def _by_moisture(conversion: Conversion, pointer: str, trace: Trace) -> float:
    moisture, here = conversion.moisture, f"{pointer}/moisture"
    if moisture is None:
        return trace.lookup("F_m", _AS_DECLARED, "fraction", _MOISTURE)
    _check_contents(conversion, moisture, pointer)
    return trace.call(
        moisture_factor,
        f_w=_moisture_coefficient(conversion, moisture, pointer, trace),
        w_2=_design_content(conversion, moisture, pointer, trace),
        w_1=trace.given(moisture.content_declared_fraction, f"{here}/content_declared_fraction"),
    )


def _moisture_coefficient(conversion: Conversion, moisture: MoistureConversion, pointer: str, trace: Trace) -> float:
    if moisture.coefficient is not None:
        return trace.given(moisture.coefficient, f"{pointer}/moisture/coefficient")
    row = conversion_row(_material(conversion, f"{pointer}/moisture/coefficient"), f"{pointer}/material")
    return trace.lookup("f_w", row["moisture"]["coefficient"], "count", clause_of(row))


def _design_content(conversion: Conversion, moisture: MoistureConversion, pointer: str, trace: Trace) -> float:
    if moisture.content_design_fraction is not None:
        return trace.given(moisture.content_design_fraction, f"{pointer}/moisture/content_design_fraction")
    row = conversion_row(_material(conversion, f"{pointer}/moisture/content_design_fraction"), f"{pointer}/material")
    return trace.lookup("w", content_in_air(row["moisture"], moisture.air_humidity_percent), "fraction", clause_of(row))


def content_in_air(moisture: MoistureCoefficient, humidity: Literal[50, 80] | None) -> float:
    """Tabulated moisture content in equilibrium with air of 50 or 80 % at 23 degrees Celsius."""
    return moisture["content_50_percent_fraction" if humidity == 50 else "content_80_percent_fraction"]


def _check_contents(conversion: Conversion, moisture: MoistureConversion, pointer: str) -> None:
    here = f"{pointer}/moisture"
    if (moisture.content_design_fraction is None) == (moisture.air_humidity_percent is None):
        raise refuse(
            "conversion-contradictory",
            f"{here}/content_design_fraction",
            "give content_design_fraction or air_humidity_percent: one of the two, not both",
        )
    _check_volume(moisture, here)
    if conversion.material is None:
        return
    tabulated = conversion_row(conversion.material, f"{pointer}/material")["moisture"]
    if moisture.basis != tabulated["basis"]:
        raise refuse(
            "conversion-contradictory",
            f"{here}/basis",
            f"the table speaks of {conversion.material} {tabulated['basis'].replace('_', ' ')}; give contents on that basis, "
            "or leave out material and give the coefficient",
        )
    most, contents = (
        tabulated.get("content_most_fraction"),
        (moisture.content_declared_fraction, moisture.content_design_fraction),
    )
    if moisture.coefficient is None and most is not None and any(one is not None and one > most for one in contents):
        raise refuse(
            "outside-validity",
            f"{here}/content_design_fraction",
            f"the coefficient of {conversion.material} holds for contents up to {most:g}; give a coefficient from another source",
        )


def _check_volume(moisture: MoistureConversion, pointer: str) -> None:
    if moisture.basis != "by_volume":
        return
    for name in ("content_declared_fraction", "content_design_fraction"):
        content = getattr(moisture, name)
        if content is not None and content > _MOST_BY_VOLUME:
            raise refuse(
                "outside-validity",
                f"{pointer}/{name}",
                f"{content:g} m3 of water in 1 m3 of material is more than {_MOST_BY_VOLUME:g}; give a lesser content, or basis by_mass",
            )


def _material(conversion: Conversion, pointer: str) -> str:
    if conversion.material is None:
        raise refuse(
            "conversion-contradictory",
            pointer,
            "neither this value nor the material is given; give the value, or a key of the conversions in /v1/materials",
        )
    return conversion.material
