"""Surface resistances by direction of heat flow, unless the request gives its own or what they follow from."""

from typing import Final, Literal

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.thermal.models import BuildUp, Element
from storeyrod.thermal.surface_formulas import external_surface, internal_surface
from storeyrod.thermal.tabulated import SURFACES, Tabulated
from storeyrod.trace import Trace

Side = Literal["internal", "external"]

_BY_ELEMENT: Final[dict[tuple[Side, Element], Tabulated]] = {
    ("internal", "wall"): SURFACES["internal_horizontal"],
    ("internal", "roof"): SURFACES["internal_up"],
    ("internal", "floor"): SURFACES["internal_down"],
    ("external", "wall"): SURFACES["external"],
    ("external", "roof"): SURFACES["external"],
    ("external", "floor"): SURFACES["external"],
}


def surface(build_up: BuildUp, pointer: str, side: Side, trace: Trace) -> float:
    """Surface resistance in m2.K/W: as given, else by the conditions given, else the conventional one of the element."""
    given = build_up.surface_internal_m2_k_per_w if side == "internal" else build_up.surface_external_m2_k_per_w
    if given is not None:
        return trace.given(given, f"{pointer}/surface_{side}_m2_k_per_w")
    conditions, here = build_up.surface_conditions, f"{pointer}/surface_conditions"
    if conditions is None:
        return _BY_ELEMENT[side, build_up.element].read(trace)
    if side == "internal":
        return internal_surface(conditions, here, build_up.element, trace)
    return external_surface(conditions, here, trace)


def still_air(element: Element, trace: Trace) -> float:
    """Resistance of a surface that faces a well-ventilated layer: that of an internal surface."""
    return _BY_ELEMENT["internal", element].read(trace)


_ASSUMED: Final = {place: Assumed(row.unit, row.clause) for place, row in _BY_ELEMENT.items()}
_SHELTERED: Final = {
    element: Assumed(row.unit, row.clause, "still air in a well-ventilated layer")
    for (side, element), row in _BY_ELEMENT.items()
    if side == "internal"
}


def assumed_surfaces(build_up: BuildUp, pointer: str, *, sheltered: bool) -> list[Assumption]:
    """Assumption rows of the surfaces that the request left out; ``sheltered`` by a well-ventilated layer."""
    made: list[Assumption] = []
    element, by_conditions = build_up.element, build_up.surface_conditions is not None
    if build_up.surface_internal_m2_k_per_w is None and not by_conditions:
        made.append(_row("internal", element, f"{pointer}/surface_internal_m2_k_per_w"))
    if sheltered:
        here, still = f"{pointer}/surface_external_m2_k_per_w", _BY_ELEMENT["internal", element]
        made.append(stated(here, still.value, _SHELTERED[element]))
    elif build_up.surface_external_m2_k_per_w is None and not by_conditions:
        made.append(_row("external", element, f"{pointer}/surface_external_m2_k_per_w"))
    return made


def _row(side: Side, element: Element, pointer: str) -> Assumption:
    return stated(pointer, _BY_ELEMENT[side, element].value, _ASSUMED[side, element])
