"""Bays beside the corners of a building: how far from a corner the first joint may stand, and where it does not.

Where a profile limits the two distances of a corner together, they are shared out before joints are placed: one face takes the
nearer joint, the other what is left. The nearer one goes to the face in which a joint is given so near to the corner, else to the
longer face, else to the one that comes first in the request; at a corner without a partner to the face that is known.
Afterwards every corner is looked at as it stands, whichever face has the nearer joint.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.movement_joints.bay_findings import LENGTH_GUARD, place_of
from storeyrod.movement_joints.profiles import PARAPET, Profile
from storeyrod.movement_joints.spacing import has_parapet, in_parapet, length_rule
from storeyrod.wall.corners import Corner, CornerEnd
from storeyrod.wall.face import Face

Ends = Mapping[str, float]
"""Limits of end bays in ticks, by the name of the edge."""

UNLIMITED: Final = math.inf


@dataclass(frozen=True, slots=True)
class CornerRule:
    """What a corner asks, in ticks: of each face, of the nearer one, and of both together; infinite where nothing is asked."""

    each: Mapping[str, float]
    near: float
    together: float


def corner_rule(profile: Profile, corner: Corner) -> CornerRule:
    """What a profile asks of a corner, with parapets."""
    each = {end.name: _each(profile, end.face) for end in corner.ends}
    if "corner_sum" not in profile.rules:
        return CornerRule(each, UNLIMITED, UNLIMITED)
    spacings = [in_parapet(end.face, length_rule(profile, end.face).value) for end in corner.ends]
    together = min(profile.rules["corner_sum"].value, *spacings)
    return CornerRule(each, ticks(profile.rules["corner_near"].value), ticks(together))


def _each(profile: Profile, face: Face) -> float:
    """Limit of the bay of one face at a corner: the profile's, and that of a parapet."""
    rules = [profile.rules.get("corner"), PARAPET["corner"] if has_parapet(face) else None]
    return min((ticks(rule.value) for rule in rules if rule is not None), default=UNLIMITED)


def end_limits(profile: Profile, corners: Sequence[Corner], faces: Sequence[Face]) -> Ends:
    """Limits of the bays at all corners, shared out between their faces."""
    order = {face.id: index for index, face in enumerate(faces)}
    limits = {}
    for corner in corners:
        rule = corner_rule(profile, corner)
        nearer = min(corner.ends, key=lambda end: (*_nearness(end, rule.near), order[end.face.id]))
        for end in corner.ends:
            share = rule.near if end is nearer else rule.together - rule.near
            limits[end.name] = min(rule.each[end.name], share) if rule.together < UNLIMITED else rule.each[end.name]
    return limits


def _nearness(end: CornerEnd, near: float) -> tuple[bool, float]:
    """Faces with a joint near the corner first, then the longest."""
    face = end.face
    given = face.elevation.joints_x_mm or face.elevation.existing_joints_x_mm
    away = [ticks(x) - face.left if end.side == "left" else face.right - ticks(x) for x in given]
    return min(away, default=UNLIMITED) > near, -face.length


@dataclass(frozen=True, slots=True)
class Distance:
    """A distance from a corner to the first joint, or both of a corner together, with its limit; ticks."""

    end: CornerEnd
    bay: Interval
    value: float
    limit: float

    @property
    def kept(self) -> bool:
        """Whether the limit is kept."""
        return self.value <= self.limit + LENGTH_GUARD


def corner_distances(profile: Profile, corner: Corner, bays: Mapping[str, Sequence[Interval]]) -> list[Distance]:
    """What a profile limits at a corner; bays by elevation. A face without joints is one bay."""
    rule = corner_rule(profile, corner)
    own = [Distance(end, bay, bay[1] - bay[0], rule.each[end.name]) for end in corner.ends for bay in [_bay(end, bays)]]
    nearest = min(own, key=lambda one: one.value)
    found = [*own, replace(nearest, limit=rule.near)]
    if len(own) > 1:
        found.append(replace(nearest, value=sum(one.value for one in own), limit=rule.together))
    return [one for one in found if one.limit < UNLIMITED]


def corner_findings(
    profile: Profile, corner: Corner, bays: Mapping[str, Sequence[Interval]]
) -> list[tuple[CornerEnd, Finding]]:
    """What is exceeded at a corner, each with the end at which it is shown."""
    return [(one.end, _finding(one)) for one in corner_distances(profile, corner, bays) if not one.kept]


def _finding(one: Distance) -> Finding:
    where = place_of(one.end.face, *one.bay)
    where["pointer"] = one.end.face.edge_pointer(one.end.side)
    value, limit = millimetres(one.value), millimetres(one.limit)
    return finding("corner-bay-too-long", where, value=value, limit=limit, unit="mm")


def _bay(end: CornerEnd, bays: Mapping[str, Sequence[Interval]]) -> Interval:
    """The bay beside an end of a corner."""
    return bays[end.face.id][0 if end.side == "left" else -1]
