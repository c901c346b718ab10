"""The joints as placed, held against every named spacing: none is mixed with another, and where they disagree it is said."""

from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.bay_findings import unjointed_steps
from storeyrod.movement_joints.bay_limits import Use, profile_uses
from storeyrod.movement_joints.bay_models import ProfileCheck, ProfileLimit
from storeyrod.movement_joints.corner_bays import corner_distances
from storeyrod.movement_joints.panels import Measured
from storeyrod.movement_joints.profiles import PARAPET, PROFILES, Profile
from storeyrod.movement_joints.spacing import has_parapet
from storeyrod.wall.wall import Wall

Bays = Mapping[str, Sequence[Measured]]
"""Measured bays of each elevation, from left to right."""


def profile_checks(wall: Wall, bays: Bays) -> list[ProfileCheck]:
    """One row for every profile, with the worst place for each of its limits."""
    return [_check(profile, wall, bays) for profile in PROFILES.values()]


def _check(profile: Profile, wall: Wall, bays: Bays) -> ProfileCheck:
    worst = worst_uses(profile, wall, bays)
    row: ProfileCheck = {
        "profile": profile.key,
        "title": profile.title,
        "document": profile.clause.document,
        "status": profile.clause.status,
        "applies": profile.applies,
        "chosen": profile.key == wall.system.movement_joint.profile,
        "kept": all(use.kept for use in worst),
        "limits": [_limit(use, profile) for use in worst],
    }
    if profile.also_asks:
        row["also_asks"] = profile.also_asks
    return row


def worst_uses(profile: Profile, wall: Wall, bays: Bays) -> list[Use]:
    """For each limit of a profile the place that takes most of it, the first of equal ones."""
    uses = [
        *(use for face in wall.faces for bay in bays[face.id] for use in profile_uses(profile, face, bay, wall.system)),
        *_corners(profile, wall, bays),
        *_steps(profile, wall, bays),
    ]
    kinds = list(dict.fromkeys(use.kind for use in uses))
    ordered = sorted(uses, key=lambda use: kinds.index(use.kind))
    return [max(group, key=lambda use: use.fraction) for _, group in groupby(ordered, key=lambda use: use.kind)]


def _corners(profile: Profile, wall: Wall, bays: Bays) -> list[Use]:
    plain = {name: [(bay.left, bay.right) for bay in row] for name, row in bays.items()}
    found = []
    for corner in wall.corners:
        for one in corner_distances(profile, corner, plain):
            face, (left, right) = one.end.face, one.bay
            rule = profile.rules.get("corner", profile.rules.get("corner_sum"))
            clause = PARAPET["corner"].clause if rule is None or has_parapet(face) else rule.clause
            value, limit = millimetres(one.value), millimetres(one.limit)
            found.append(Use("corner", value, limit, "mm", clause, face, left, right))
    return found


def _steps(profile: Profile, wall: Wall, bays: Bays) -> list[Use]:
    """Changes of height without a joint, by elevation: none is permitted where a profile asks for joints there."""
    if profile.step is None:
        return []
    found = []
    for face in wall.faces:
        open_steps = unjointed_steps(face, _strips(bays[face.id]), wall.system)
        at = open_steps[0].x if open_steps else face.left
        found.append(
            Use(
                "change_of_height",
                float(len(open_steps)),
                0.0,
                "count",
                profile.step,
                face,
                at,
                at if open_steps else face.right,
            )
        )
    return found


def _strips(bays: Sequence[Measured]) -> list[Interval]:
    """Strips of the joints between bays."""
    return [(before.right, after.left) for before, after in pairwise(bays)]


def _limit(use: Use, profile: Profile) -> ProfileLimit:
    clause = use.clause or profile.clause
    return {
        "kind": use.kind,
        "kept": use.kept,
        "value": use.value,
        "limit": use.limit,
        "unit": use.unit,
        "elevation": use.face.id,
        "x_from_mm": millimetres(use.left),
        "x_to_mm": millimetres(use.right),
        "document": clause.document,
        "number": clause.number,
        "status": clause.status,
    }


def disagreements(checks: Sequence[ProfileCheck], wall: Wall) -> list[Finding]:
    """Profiles for such facings that were not chosen and would ask for more: each with what is exceeded most."""
    pointers = {face.id: face.pointer for face in wall.faces}
    return [
        _disagreement(check, max(over, key=lambda limit: limit["value"] / limit["limit"]), pointers)
        for check in checks
        if check["applies"] and not check["chosen"] and (over := [one for one in check["limits"] if not one["kept"]])
    ]


def _disagreement(check: ProfileCheck, over: ProfileLimit, pointers: Mapping[str, str]) -> Finding:
    where: Where = {
        "pointer": pointers[over["elevation"]],
        "elevation": over["elevation"],
        "x_mm": over["x_from_mm"],
        "x_to_mm": over["x_to_mm"],
    }
    advice = (
        f"{check['title']} ({check['document']}) asks for more by {over['kind']}; see profiles in the answer, and agree with the "
        "designer which document is to be kept."
    )
    return finding(
        "profile-disagrees", where, value=over["value"], limit=over["limit"], unit=over["unit"], advice=advice
    )
