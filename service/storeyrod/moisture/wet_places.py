"""Where in a section moisture is held: within a layer, all its sub-layers together, or at a face between two layers."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum
from typing import NamedTuple

from storeyrod.findings import FINDINGS, Finding, finding
from storeyrod.moisture.section import Plane
from storeyrod.moisture.working import MoistureWorking


class _Spot(NamedTuple):
    """A layer within which, or on whose outer side, planes lie; no layer at the internal surface."""

    layer: int | None
    within: bool


@dataclass(frozen=True, slots=True)
class WetPlace:
    """Layer in whose row of the request a place is found, its words, the most it holds in kg/m2, its least temperature while wet.

    How finely a layer is divided changes no place: its sub-layers count as one.
    """

    layer: int
    words: str
    greatest: float
    coldest: float

    def said(self, code: str, value: float, *, unit: str, limit: float | None = None) -> Finding:
        """A finding at this place, with the place named in its advice."""
        where = f"/build_up/layers/{self.layer}"
        advice = f"{self.words}: {FINDINGS[code].advice}"
        return finding(code, {"pointer": where}, value=value, limit=limit, unit=unit, advice=advice)


def wet_places(working: MoistureWorking) -> Iterator[WetPlace]:
    """Places that ever hold moisture, from inside to outside."""
    spots: dict[_Spot, list[int]] = {}
    planes = working.section.planes
    for plane in working.greatest:
        spots.setdefault(_Spot(planes[plane].inside, planes[plane].within is not None), []).append(plane)
    for spot, held in spots.items():
        amounts = [fsum(moment.held.get(plane, 0.0) for plane in held) for moment in working.moments]
        yield WetPlace(spot.layer or 0, _words(spot, planes[held[0]]), max(amounts), _coldest(working, held))


def _words(spot: _Spot, plane: Plane) -> str:
    if spot.layer is None:
        return "On the internal surface, behind the air film"
    if spot.within:
        return f"Within layer {spot.layer}, all its sub-layers together"
    if plane.outside is None:
        return "On the external surface, behind the air film"
    return f"Between layers {spot.layer} and {plane.outside}, at this face alone"


def _coldest(working: MoistureWorking, planes: list[int]) -> float:
    return min(
        working.course.profiles[moment.at].temperatures[plane]
        for moment in working.moments
        for plane in planes
        if plane in moment.held
    )
