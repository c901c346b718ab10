"""Short ways to ask for levels in tests: walls whose heads, sills, tops and feet are given, on plain boards or ribs."""

from typing import Any, Final

from storeyrod.setting_out.datum import datum_result
from storeyrod.setting_out.level_models import DatumCandidate, DatumResult
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall, wall_of
from unit.wall.survey import PLAIN, points, rectangle, window

PITCH_MM: Final = 75.0
SLIP_MM: Final = 65.0


def levelled(foot: float, top: float, *holes: tuple[float, float], name: str = "rear") -> dict[str, Any]:
    """An elevation of 4800 between two levels, with windows by sill and head."""
    openings = [
        window(f"w{at}", x_mm=300 + 700 * at, width_mm=450, y_mm=sill, height_mm=head - sill)
        for at, (sill, head) in enumerate(holes)
    ]
    outline = points((0, foot), (4800, foot), (4800, top), (0, top))
    return {**rectangle(outline=outline, openings=openings), "id": name}


def stood(*elevations: dict[str, Any], datum: float = 0.0, ribs: bool = True, **system: Any) -> Wall:
    """The wall on a datum, on ribbed or plain boards."""
    board = {**PLAIN["board"], **({} if ribs else {"rib_pitch_mm": None})}
    made = System.model_validate({**PLAIN, "board": board, "course_datum_mm": datum, **system})
    return wall_of([Elevation.model_validate(one) for one in elevations], made)


def result_of(wall: Wall) -> DatumResult:
    return datum_result(wall, None)[0]


def candidate(result: DatumResult, why: str) -> DatumCandidate:
    (found,) = [one for one in result["candidates"] if one["why"] == why]
    return found
