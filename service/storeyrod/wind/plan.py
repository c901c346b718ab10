"""Wind on all faces of a wall: zones of every direction, their envelope, and what was found."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import SIDES as ENDS
from storeyrod.wall.face import Face, Side
from storeyrod.wall.models import BuildingFace
from storeyrod.wind.directions import Direction, SideZone, directions_of
from storeyrod.wind.envelope import envelope
from storeyrod.wind.face_wind import FaceWind, WindPatch, WindPlan
from storeyrod.wind.face_zones import FaceZone, assessed_to, face_zones, refuse_higher
from storeyrod.wind.internal import SIDES
from storeyrod.wind.site_models import AnyWind, BasicVelocity, GermanAnnex, PeakPressures
from storeyrod.wind.velocity import HIGHEST_M


@dataclass(frozen=True, slots=True)
class WindWorking:
    """The plan with what led to it: every direction, and the zones of each face in request order."""

    plan: WindPlan
    directions: tuple[Direction, ...]
    zones: tuple[tuple[FaceZone, ...], ...]


def wind_on(faces: Sequence[Face], wind: AnyWind, trace: Trace = SILENT) -> WindPlan:
    """Envelope of the wind on every face; raises the refusals of ``wind_working``."""
    return wind_working(faces, wind, trace).plan


def wind_working(faces: Sequence[Face], wind: AnyWind, trace: Trace = SILENT) -> WindWorking:
    """Zones and envelope of the wind on every face.

    Raises ``national-choice-contradictory``, ``probability-contradictory``, ``pressures-disordered``, ``outside-validity`` and
    ``building-too-small``.
    """
    _refuse_other_annex(wind)
    _refuse_too_high(wind)
    _refuse_two_probabilities(wind)
    directions = tuple(directions_of(wind, trace))
    sides = [zone for direction in directions for zone in direction.zones]
    zones = tuple(tuple(_zones_on(face, sides, wind)) for face in faces)
    made = tuple(FaceWind(face, _patches(found), assessed_to(face)) for face, found in zip(faces, zones, strict=True))
    places, ground = {face.id: face.elevation.face for face in faces}, ticks(wind.ground_y_mm)
    findings = [
        *_left_out(wind),
        *_falling(wind),
        *(item for face in made for item in _face_findings(face, places, ground)),
    ]
    return WindWorking(WindPlan(made, tuple(findings)), directions, zones)


def _refuse_too_high(wind: AnyWind) -> None:
    """The standard ends at 200 m, whatever the pressures are from (1.1(2))."""
    if wind.building.height_m > HIGHEST_M:
        detail = (
            f"The building is {wind.building.height_m:g} m high, and the standard ends at {HIGHEST_M:g} m; have the wind worked out by a "
            "structural engineer."
        )
        raise refuse("outside-validity", "/wind/building/height_m", detail)


def _refuse_other_annex(wind: AnyWind) -> None:
    """Two annexes read exposure from graphs, not from the expressions of section 4; the German one is a kind of its own."""
    if isinstance(wind, GermanAnnex) and wind.national_choice not in ("recommended", "germany"):
        detail = "Kind german_annex is the choice of Germany; leave national_choice out, or give another kind."
        raise refuse("national-choice-contradictory", "/wind/national_choice", detail)
    if isinstance(wind, BasicVelocity) and wind.national_choice in ("united_kingdom", "ireland"):
        detail = (
            "This annex reads the exposure factor from graphs by distance to sea and inside town; give kind peak_pressures with "
            "the pressures read there."
        )
        raise refuse("national-choice-contradictory", "/wind/national_choice", detail)
    if isinstance(wind, BasicVelocity) and wind.national_choice == "germany":
        detail = "This annex has profiles of its own; give kind german_annex, or peak_pressures with pressures from it."
        raise refuse("national-choice-contradictory", "/wind/national_choice", detail)


def _refuse_two_probabilities(wind: AnyWind) -> None:
    if isinstance(wind, BasicVelocity) and wind.exceedance is not None and wind.probability_factor != 1.0:
        detail = f"A factor of {wind.probability_factor:g} and a probability of {wind.exceedance.annual_fraction:g} a year are given; give one."
        raise refuse("probability-contradictory", "/wind/exceedance", detail)


def _zones_on(face: Face, sides: Sequence[SideZone], wind: AnyWind) -> Iterator[FaceZone]:
    """Zones of a face; where its side is not given, zones A and D of every direction all over it."""
    place = face.elevation.face
    refuse_higher(face, wind)
    if place is not None:
        yield from face_zones(face, place, sides, wind)
        return
    end = assessed_to(face)
    top = face.top if end is None else min(face.top, end)
    if top > face.foot:
        box = face.left, face.foot, face.right, top
        yield from (FaceZone(box, _everywhere(zone)) for zone in sides if zone.zone in ("A", "D"))


def _everywhere(zone: SideZone) -> SideZone:
    everywhere = float("-inf"), float("inf")
    return replace(zone, start=everywhere[0], end=everywhere[1], bottom=everywhere[0], top=everywhere[1])


def _patches(zones: Sequence[FaceZone]) -> tuple[WindPatch, ...]:
    return envelope(zones) if zones else ()


def _left_out(wind: AnyWind) -> Iterator[Finding]:
    missing = [side for side in SIDES if side not in wind.directions]
    if missing:
        place: Where = {"pointer": "/wind/directions"}
        yield finding("wind-directions-left-out", place, value=len(missing), limit=0, unit="count")


def _falling(wind: AnyWind) -> Iterator[Finding]:
    """Where given pressures fall with height, which no profile of the standard does."""
    for index, (below, above) in enumerate(pairwise(wind.peak_pressures if isinstance(wind, PeakPressures) else ()), 1):
        if above.pressure_pa < below.pressure_pa:
            place: Where = {"pointer": f"/wind/peak_pressures/{index}/pressure_pa"}
            yield finding("pressure-falls", place, value=above.pressure_pa, limit=below.pressure_pa, unit="pa")
            return


def _face_findings(wind: FaceWind, places: Mapping[str, BuildingFace | None], ground: float) -> Iterator[Finding]:
    face = wind.face
    where: Where = {"pointer": face.pointer, "elevation": face.id}
    if wind.assessed_to is not None:
        above: Where = {
            **where,
            "pointer": f"{face.members_pointer}/parapet_from_mm",
            "y_mm": millimetres(wind.assessed_to),
        }
        yield finding("parapet-wind", above)
    if face.top <= ground:
        yield finding("wind-below-ground", where)
    if any(face.edge(side).kind == "internal_corner" for side in ENDS):
        yield finding("wind-plan-not-a-box", where)
    if face.elevation.face is None:
        yield finding("wind-face-unknown", where)
    elif wind.patches and all(patch.zone == "A" for patch in wind.patches):
        yield finding("zone-a-whole-face", where)
    if any(_views_disagree(face, end, places) for end in ENDS):
        yield finding("wind-view-unclear", where)


def _views_disagree(face: Face, end: Side, places: Mapping[str, BuildingFace | None]) -> bool:
    """Whether an end meets a like end of another face that is drawn from the same side, or an unlike one drawn from the other."""
    other, _, met = (face.edge(end).to or "").rpartition(":")
    own, its = face.elevation.face, places.get(other)
    if own is None or its is None or other == face.id:
        return False
    return (met == end) == (own.seen_from == its.seen_from)
