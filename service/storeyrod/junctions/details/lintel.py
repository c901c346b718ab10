"""The lintel over an opening, in place of one layer of the wall."""

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.junctions.detail_models import HeadParameters, Lintel
from storeyrod.junctions.details.drawing import PARAMETERS, Box
from storeyrod.junctions.details.wall_slices import Slice, Wall, behind, insulation_of
from storeyrod.reference.documents import HOUSE

_LINTEL = f"{PARAMETERS}/lintel"
_OTHERWISE = "; or give lintel.layer, the layer whose place the lintel takes"
_THICKEST = Assumed("", HOUSE, "the thickest layer behind the cladding")


def lintel_boxes(given: HeadParameters, wall: Wall) -> tuple[list[Box], list[Assumption]]:
    """The lintel, if there is one, over the end of the wall."""
    if given.lintel is None:
        return [], []
    layer, assumed = _replaced(given.lintel, given.insulation_layer, wall)
    along = (-ticks(given.lintel.height_mm), 0.0)
    box = Box(along, (layer.outer, layer.inner), given.lintel.conductivity_w_per_m_k, "lintel", _LINTEL)
    return [box], assumed


def _replaced(lintel: Lintel, insulation_layer: int | None, wall: Wall) -> tuple[Slice, list[Assumption]]:
    pointer = f"{_LINTEL}/layer"
    if lintel.layer is not None:
        if lintel.layer < len(wall.slices):
            return wall.slices[lintel.layer], []
        raise refuse(
            "detail-unfit",
            pointer,
            f"layer {lintel.layer} is not among the {len(wall.slices)} layers that count; count from 0 at the inside",
        )
    insulation, assumed = insulation_of(wall, insulation_layer, PARAMETERS, _OTHERWISE)
    found = max(behind(wall, insulation, _OTHERWISE), key=lambda one: one.inner - one.outer)
    return found, [*assumed, stated(pointer, found.heat.index, _THICKEST)]
