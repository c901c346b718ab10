"""What the method assumed where the request was silent."""

from collections.abc import Iterator, Sequence

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.moisture.models import CondensationRequest, MonthlyClimate
from storeyrod.moisture.section import Section
from storeyrod.reference.documents import COMMON_PRACTICE
from storeyrod.thermal.materials import conductivity_of
from storeyrod.thermal.models import MaterialLayer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.surfaces import assumed_surfaces

_CALENDAR = Assumed("", COMMON_PRACTICE, "a year that is no leap year")


def method_rows(request: CondensationRequest, layers: Sequence[HeatLayer], section: Section) -> list[Assumption]:
    """Surfaces by element, data from tables, the parts of bridged layers that are passed, and lengths of months."""
    sheltered = len(layers) < len(request.build_up.layers)
    return [
        *assumed_surfaces(request.build_up, "/build_up", sheltered=sheltered),
        *_conductivities(layers),
        *(row for layer in section.layers for row in layer.assumed),
        *_months(request),
    ]


def _conductivities(layers: Sequence[HeatLayer]) -> Iterator[Assumption]:
    for heat in layers:
        if isinstance(heat.layer, MaterialLayer):
            tabulated = conductivity_of(heat.layer.material, heat.pointer)
            source = Assumed(tabulated.unit, tabulated.clause)
            yield stated(f"{heat.pointer}/conductivity_w_per_m_k", tabulated.value, source)


def _months(request: CondensationRequest) -> Iterator[Assumption]:
    climate = request.climate
    if isinstance(climate, MonthlyClimate) and any(month.days is None for month in climate.months):
        yield stated("/climate/months", "days of the calendar", _CALENDAR)
