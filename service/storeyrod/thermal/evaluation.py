"""A request's U-value for other inputs: every input named by its pointer, none hidden behind a table's key."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from storeyrod.findings import refuse
from storeyrod.thermal.combined import paths_count
from storeyrod.thermal.corrections import terms_of
from storeyrod.thermal.materials import conductivity_of
from storeyrod.thermal.models import BuildUp, Layer, MaterialLayer, SolidLayer, UValueRequest
from storeyrod.thermal.surfaces import surface
from storeyrod.thermal.u_value import Component, component_of
from storeyrod.thermal.variation import Inputs, Varied
from storeyrod.trace import SILENT, Trace
from storeyrod.units import UNITS

BUILD_UP: Final = "/build_up"
_CODES: Final = sorted(UNITS, key=len, reverse=True)
_IN_METRES: Final = {"mm": "m", "mm2": "m2"}
_MOST_PATHS: Final = 200_000
"""Heat paths, over all evaluations of one question, beyond which it is refused: some tenths of a second."""


@dataclass(frozen=True)
class Evaluation:
    """A request with its defaults written out, whether its corrections apply, and pointers of those defaults."""

    request: UValueRequest
    applies: bool
    assumed: frozenset[str] = frozenset()

    def u_value(self, values: Mapping[str, Any]) -> float:
        """U-value in W/(m2.K) with other values, in SI, at some pointers; corrections count as they do without."""
        trace = Varied(values)
        return component_with(self.request, trace).u_value(trace, applies=self.applies)

    def component(self, values: Mapping[str, Any]) -> Component:
        """The component with other values, in SI, at some pointers."""
        return component_with(self.request, Varied(values))

    def inputs(self) -> dict[str, float]:
        """What the U-value takes from the request: pointer and value in SI, in the order in which they are used."""
        trace = Inputs()
        component_with(self.request, trace)
        return trace.values

    def at(self, pointer: str) -> Any:  # noqa: ANN401  any member of the request
        """Member of the request at a pointer, in its own unit."""
        found: Any = self.request
        for name in pointer.split("/")[1:]:
            found = found[int(name)] if isinstance(found, list) else getattr(found, name)
        return found

    def refuse_too_many(self, evaluations: int, pointer: str) -> None:
        """Refuse ``size-limit`` when the heat paths of all evaluations run away."""
        paths = evaluations * paths_count(component_with(self.request, SILENT).layers)
        if paths > _MOST_PATHS:
            raise refuse(
                "size-limit",
                pointer,
                f"this asks for {paths} heat paths over all evaluations, {_MOST_PATHS} are the most; merge parts that "
                "conduct alike, or ask without it",
            )


def evaluation_of(request: UValueRequest, *, applies: bool) -> Evaluation:
    """A request ready to be asked with other inputs."""
    explicit = request.model_copy(update={"build_up": _explicit(request.build_up)})
    return Evaluation(explicit, applies, frozenset(_written_out(request.build_up)))


def component_with(request: UValueRequest, trace: Trace) -> Component:
    """The component that a trace makes of a request."""
    terms = terms_of(request.corrections, "/corrections", trace)
    return component_of(request.build_up, BUILD_UP, terms, trace, request.tapered)


def unit_of(pointer: str) -> str:
    """Code of the unit that the last name of a pointer ends in; a count where it ends in none."""
    name = pointer.rpartition("/")[2]
    return next((code for code in _CODES if name == code or name.endswith(f"_{code}")), "count")


def formula_unit_of(pointer: str) -> str:
    """Code of the unit in which formulas take the member at a pointer."""
    unit = unit_of(pointer)
    return _IN_METRES.get(unit, unit)


def _written_out(build_up: BuildUp) -> Iterator[str]:
    """Pointers of members that are absent from a build-up and stand in the explicit one."""
    if build_up.surface_conditions is None:
        for name in ("surface_internal_m2_k_per_w", "surface_external_m2_k_per_w"):
            if getattr(build_up, name) is None:
                yield f"{BUILD_UP}/{name}"
    for index, layer in enumerate(build_up.layers):
        if isinstance(layer, MaterialLayer):
            yield f"{BUILD_UP}/layers/{index}/conductivity_w_per_m_k"


def _explicit(build_up: BuildUp) -> BuildUp:
    """The build-up with conventional surfaces and tabulated conductivities as members of their own."""
    members: dict[str, Any] = {"layers": [_as_solid(layer) for layer in build_up.layers]}
    if build_up.surface_conditions is None:
        members["surface_internal_m2_k_per_w"] = surface(build_up, "", "internal", SILENT)
        members["surface_external_m2_k_per_w"] = surface(build_up, "", "external", SILENT)
    return build_up.model_copy(update=members)


def _as_solid(layer: Layer) -> Layer:
    if not isinstance(layer, MaterialLayer):
        return layer
    return SolidLayer(
        kind="solid",
        name=layer.material,
        thickness_mm=layer.thickness_mm,
        conductivity_w_per_m_k=conductivity_of(layer.material, "").value,
    )
