"""How large a request is, before anything is laid out."""

from collections.abc import Sequence

from storeyrod.wall.grid import course_pitch_of, module_of
from storeyrod.wall.mirror import source_of
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System


def estimated_units(elevations: Sequence[Elevation], system: System) -> int:
    """Slips and boards that would cover the bounding boxes of all elevations: an upper guide for work limits."""
    by_id = {elevation.id: elevation for elevation in elevations}
    slip = module_of(system) * course_pitch_of(system)
    board = system.board.cover_length_mm * system.board.cover_height_mm
    area = sum(_box_area(source_of(elevation, by_id)) for elevation in elevations)
    return int(area / slip + area / board)


def _box_area(elevation: Elevation) -> float:
    if elevation.outline is None:
        return (elevation.width_mm or 0.0) * (elevation.height_mm or 0.0)
    xs = [point.x_mm for point in elevation.outline]
    ys = [point.y_mm for point in elevation.outline]
    return (max(xs) - min(xs)) * (max(ys) - min(ys))
