"""The bond at the corners: what each face shows there in course 0."""

from collections.abc import Mapping
from typing import Literal

from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import CornerSetOut
from storeyrod.setting_out.course_grid import module_lengths
from storeyrod.setting_out.turning import ends_long
from storeyrod.wall.corners import Corner
from storeyrod.wall.wall import Wall


def corner_rows(wall: Wall, outs: Mapping[str, FaceSetOut]) -> list[CornerSetOut]:
    """Every corner whose two faces are in the request."""
    return [_row(corner, wall, outs) for corner in wall.corners if corner.second is not None]


def _row(corner: Corner, wall: Wall, outs: Mapping[str, FaceSetOut]) -> CornerSetOut:
    module = module_lengths(wall.system)
    shown: list[Literal["long", "short"]] = [
        "long" if ends_long(outs[end.face.id], end.side, module) else "short" for end in corner.ends
    ]
    return {
        "edges": [end.name for end in corner.ends],
        "kind": "internal_corner" if corner.kind == "internal_corner" else "external_corner",
        "course_0": shown,
        "bond_turns": len(set(shown)) == 2,
    }
