"""What bays take of the limits of a spacing: by length, boards, area and ratio."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.movement_joints.bay_models import Limited
from storeyrod.movement_joints.panels import Measured
from storeyrod.movement_joints.profiles import Profile, Rule
from storeyrod.movement_joints.spacing import in_parapet, length_rule
from storeyrod.reference.documents import Clause
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

GUARD: Final = 1.0e-6
"""Share of a limit that rounding may take."""


@dataclass(frozen=True, slots=True)
class Use:
    """What one place of a wall takes of a limit, in the unit of the limit; ends of the place in ticks."""

    kind: Limited
    value: float
    limit: float
    unit: str
    clause: Clause | None
    face: Face
    left: float
    right: float

    @property
    def fraction(self) -> float:
        """Value over limit; where nothing is permitted, the value."""
        return self.value / self.limit if self.limit else self.value

    @property
    def kept(self) -> bool:
        """Whether the limit is kept."""
        return self.value <= self.limit * (1.0 + GUARD)


def profile_uses(profile: Profile, face: Face, bay: Measured, system: System) -> list[Use]:
    """What a bay takes of the limits of a profile, as its document has them."""
    return [_use(kind, rule.value, rule.clause, face, bay, system) for kind, rule in _rules(profile, face).items()]


def uses_in_force(profile: Profile, face: Face, bay: Measured, system: System) -> list[Use]:
    """What a bay takes of the limits of a request: its own, and otherwise the profile's."""
    asked = system.movement_joint
    given: dict[Limited, float | None] = {
        "length": asked.max_spacing_mm,
        "boards": asked.max_boards_count,
        "area": asked.max_area_m2,
        "ratio": asked.max_ratio,
    }
    limits: dict[Limited, float] = {kind: rule.value for kind, rule in _rules(profile, face).items()}
    limits |= {kind: limit for kind, limit in given.items() if limit is not None}
    return [_use(kind, limit, None, face, bay, system) for kind, limit in limits.items()]


def _rules(profile: Profile, face: Face) -> dict[Limited, Rule]:
    rules: dict[Limited, Rule | None] = {
        "length": length_rule(profile, face),
        "boards": profile.rules.get("boards"),
        "area": profile.rules.get("area"),
        "ratio": profile.rules.get("ratio"),
    }
    return {kind: rule for kind, rule in rules.items() if rule is not None}


_UNITS: Final[Mapping[Limited, str]] = {"length": "mm", "boards": "count", "area": "m2", "ratio": "count"}


def _use(kind: Limited, limit: float, clause: Clause | None, face: Face, bay: Measured, system: System) -> Use:
    values: dict[Limited, float] = {
        "length": millimetres(bay.length),
        "boards": millimetres(bay.length) / system.board.cover_length_mm,
        "area": square_metres(bay.largest),
        "ratio": bay.ratio,
    }
    if kind in ("length", "boards"):
        limit = in_parapet(face, limit)
    return Use(kind, values[kind], limit, _UNITS[kind], clause, face, bay.left, bay.right)
