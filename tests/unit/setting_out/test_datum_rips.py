"""Rips that a datum makes against the slips that are laid on it: two rooms that know nothing of one another's arithmetic."""

from typing import Any

import pytest

from slip_rows import written_out
from storeyrod.slips.calculation import calculate
from storeyrod.slips.models import SlipLayoutRequest
from unit.setting_out.level_walls import SLIP_MM, candidate, levelled, result_of, stood
from unit.wall.survey import PLAIN


def laid_heights(elevation: dict[str, Any], low: float, high: float) -> set[float]:
    """Heights of the cut pieces that lie between two levels and are lower than a slip."""
    request = {"elevations": [elevation], "system": PLAIN, "options": {"detail": "pieces"}}
    (rows,) = written_out(calculate(SlipLayoutRequest.model_validate(request)).result)["elevations"]
    cuts = [cut for course in rows["courses"] for cut in course["cuts"]]
    return {
        round(cut["height_mm"], 4)
        for cut in cuts
        if low - 1e-6 <= cut["y_mm"] and cut["y_mm"] + cut["height_mm"] <= high + 1e-6 and cut["height_mm"] < SLIP_MM
    }


@pytest.mark.parametrize("into", [5.0, 20.0, 37.5, 60.0, 66.0, 70.0])
@pytest.mark.parametrize("what", ["base", "sill", "head", "top"])
def test_the_ripped_slip_at_a_level_is_the_one_that_is_laid(what: str, into: float) -> None:
    """One level lies ``into`` a course; slips there lie within a course of it, on its wall side."""
    foot, sill, head, top = 0.0, 1050.0, 2100.0, 2475.0
    levels = {"base": foot, "sill": sill, "head": head, "top": top}
    levels[what] += into
    elevation = levelled(levels["base"], levels["top"], (levels["sill"], levels["head"]))
    (row,) = [one for one in candidate(result_of(stood(elevation)), "as_given")["levels"] if one["what"] == what]
    level, above = levels[what], what in ("base", "head")
    laid = laid_heights(elevation, level if above else level - 75, level + 75 if above else level)
    assert laid == ({row["rip_mm"]} if "rip_mm" in row else set())
