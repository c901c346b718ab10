"""Wind on all faces of a wall: zones of every direction, their envelope, and what was found."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from storeyrod.findings import refuse
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face
from storeyrod.wind.directions import Direction, SideZone, directions_of
from storeyrod.wind.envelope import envelope
from storeyrod.wind.face_wind import FaceWind, WindPatch, WindPlan
from storeyrod.wind.face_zones import FaceZone, assessed_to, face_zones, refuse_higher
from storeyrod.wind.findings import wind_findings
from storeyrod.wind.site_models import AnyWind, BasicVelocity, GermanAnnex
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
    return WindWorking(WindPlan(made, tuple(wind_findings(made, wind))), directions, zones)


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
    chosen = "national_choice" in wind.model_fields_set
    if isinstance(wind, GermanAnnex) and chosen and wind.national_choice != "germany":
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
