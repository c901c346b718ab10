"""Where in a section moisture is held: within a layer, all its sub-layers together, or at a face between two layers."""

from collections.abc import Iterator
from dataclasses import dataclass

from storeyrod.findings import FINDINGS, Finding, finding
from storeyrod.moisture.section import Place, Plane
from storeyrod.moisture.working import MoistureWorking


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
    planes = working.section.planes
    places: dict[Place, list[int]] = {}
    for plane in working.greatest:
        places.setdefault(planes[plane].place, []).append(plane)
    for place, held in places.items():
        greatest = max(working.course.held_by(held))
        yield WetPlace(place.layer or 0, _words(place, planes[held[0]]), greatest, _coldest(working, held))


def _words(place: Place, plane: Plane) -> str:
    if place.layer is None:
        return "On the internal surface, behind the air film"
    if place.within:
        return f"Within layer {place.layer}, all its sub-layers together"
    if plane.outside is None:
        return "On the external surface, behind the air film"
    return f"Between layers {place.layer} and {plane.outside}, at this face alone"


def _coldest(working: MoistureWorking, planes: list[int]) -> float:
    return min(
        working.course.profiles[moment.at].temperatures[plane]
        for moment in working.moments
        for plane in planes
        if plane in moment.held
    )
