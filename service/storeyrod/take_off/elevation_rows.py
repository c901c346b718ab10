"""One elevation at a glance, from the results of the rooms."""

from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.quantities.layouts import Layouts
from storeyrod.quantities.models import ElevationQuantities
from storeyrod.take_off.models import ElevationTakeOff
from storeyrod.trace import Trace


def elevation_rows(layouts: Layouts, quantities: list[ElevationQuantities], trace: Trace) -> list[ElevationTakeOff]:
    """Lengths, areas and counts, in the order of the request."""
    return [_row(layouts, index, row, trace) for index, row in enumerate(quantities)]


def _row(layouts: Layouts, index: int, quantities: ElevationQuantities, trace: Trace) -> ElevationTakeOff:
    face, slips, boards = layouts.wall.faces[index], layouts.slips.faces[index], layouts.boards.faces[index]
    gross = trace.measure("A_gross", "m2", [("outline", square_metres(face.gross_area), face.pointer)])
    rows = [(f"opening {one.id}", square_metres(one.area), one.pointer) for one in face.openings]
    return {
        "elevation": face.id,
        "finished_length_mm": millimetres(face.length),
        "substrate_length_mm": millimetres(face.substrate_length),
        "gross_area_m2": gross,
        "openings_area_m2": trace.measure("A_openings", "m2", rows),
        "net_area_m2": square_metres(face.net_area),
        "reveal_area_m2": square_metres(sum(jamb.area for jamb in slips.returns)),
        "board_pieces_count": len(boards.pieces),
        "boards_needed_count": layouts.cutting.faces[index].boards_count,
        "fasteners_count": layouts.fasteners.faces[index].total,
        "movement_joints_count": len(layouts.plans[index].slots),
        "slip_pieces_count": slips.full_count + slips.cut_count,
        "soldiers_count": slips.soldiers_count,
        "voussoirs_count": slips.voussoirs_count,
        "return_slips_count": sum(jamb.count for jamb in slips.returns),
        "bead_length_m": quantities["adhesive"]["bead_length_m"],
        "base_trim_length_m": quantities["base_trim"]["length_m"],
    }
