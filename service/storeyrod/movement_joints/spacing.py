"""How long a bay may be: by length and by boards, in parapets, at corners, by area and by ratio of its sides.

A movement joint runs from top to foot, so where part of an elevation is a parapet its closer joints govern the whole face.
"""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ROUNDING_GUARD, SQUARE_METRES_PER_SQUARE_TICK, millimetres, ticks
from storeyrod.movement_joints.profiles import PARAPET, PROFILES, Profile, Rule
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

MANY_OPENINGS: Final = 2
"""House reading of the word many, where a document asks closer joints of walls with many openings."""

PARAPET_BAY: Final = PARAPET["parapet_share"].clause


@dataclass(frozen=True, slots=True)
class BayLimits:
    """What the bays of one face must keep, in ticks and square ticks; infinite where nothing is asked.

    ``ends`` are the limits of the bays at its left and right end, where a corner asks for a joint nearer to it.
    """

    length: float
    ends: tuple[float, float]
    area: float = math.inf
    ratio: float = math.inf


@formula(
    symbol="n_least",
    expression="Max(0, ceiling((L + w)/(s + w) - tolerance) - 1)",
    unit="count",
    inputs={"L": "mm", "s": "mm", "w": "mm", "tolerance": "count"},
    clause=GEOMETRY,
)
def least_joints(*, L: float, s: float, w: float, tolerance: float) -> float:  # noqa: N803  symbol of the formula
    """Fewest joints of width w that leave no clear bay over s in a length L."""
    return max(0, math.ceil((L + w) / (s + w) - tolerance) - 1)


@formula(
    symbol="s",
    expression="Min(s_max, n*l_b)",
    unit="mm",
    inputs={"s_max": "mm", "n": "count", "l_b": "mm"},
    clause=GEOMETRY,
)
def longest_bay(*, s_max: float, n: float, l_b: float) -> float:
    """Longest permitted bay: by length or by number of boards, whichever is less."""
    return min(s_max, n * l_b)


@formula(symbol="s_p", expression="k*s", unit="mm", inputs={"k": "fraction", "s": "mm"}, clause=PARAPET_BAY)
def parapet_bay(*, k: float, s: float) -> float:
    """Longest permitted bay of a parapet: a share of that of a wall."""
    return k * s


def profile_of(system: System) -> Profile:
    """The profile that a request keeps."""
    return PROFILES[system.movement_joint.profile]


def length_rule(profile: Profile, face: Face) -> Rule:
    """Rule for the length of bays of a face: of walls with many openings, where the profile has one and the face has them."""
    many = profile.rules.get("length_between_openings")
    return many if many is not None and len(face.openings) >= MANY_OPENINGS else profile.rules["length"]


def longest_bay_of(face: Face, system: System, trace: Trace = SILENT) -> float:
    """Longest permitted bay of a face in mm.

    Raises ``parapet-outside-outline``.
    """
    asked, profile = system.movement_joint, profile_of(system)
    if asked.max_spacing_mm is None:
        length = length_rule(profile, face).read(trace)
    else:
        length = trace.given(asked.max_spacing_mm, "/system/movement_joint/max_spacing_mm")
    boards = _asked(asked.max_boards_count, "max_boards_count", profile.rules.get("boards"), trace)
    if boards is not None:
        cover = trace.given(system.board.cover_length_mm, "/system/board/cover_length_mm")
        length = trace.call(longest_bay, s_max=length, n=boards, l_b=cover)
    return in_parapet(face, length, trace)


def in_parapet(face: Face, length_mm: float, trace: Trace = SILENT) -> float:
    """A limit of length for walls, in mm, as the face must keep it."""
    if not has_parapet(face):
        return length_mm
    return trace.call(parapet_bay, k=PARAPET["parapet_share"].read(trace), s=length_mm)


def has_parapet(face: Face) -> bool:
    """Whether the upper part of a face is a parapet; raises ``parapet-outside-outline``."""
    level_mm = face.elevation.parapet_from_mm
    if level_mm is None:
        return False
    if not face.foot < ticks(level_mm) < face.top:
        heights = f"{millimetres(face.foot):g} to {millimetres(face.top):g} mm"
        detail = f"{level_mm:g} mm is not inside the face, {heights}; give the level at which the parapet begins."
        raise refuse("parapet-outside-outline", f"{face.members_pointer}/parapet_from_mm", detail)
    return True


def area_limit_of(system: System) -> float:
    """Largest area between movement joints in square ticks."""
    limit = _asked(system.movement_joint.max_area_m2, "max_area_m2", profile_of(system).rules.get("area"), SILENT)
    return math.inf if limit is None else square_ticks(limit)


def ratio_limit_of(system: System) -> float:
    """Greatest ratio of the longer to the shorter side of what lies between movement joints."""
    limit = _asked(system.movement_joint.max_ratio, "max_ratio", profile_of(system).rules.get("ratio"), SILENT)
    return math.inf if limit is None else limit


def square_ticks(area_m2: float) -> float:
    """Square metres in square ticks."""
    return area_m2 / SQUARE_METRES_PER_SQUARE_TICK


def least_count_of(face: Face, limit_mm: float, width: float, trace: Trace) -> int:
    """Fewest joints that the length of a face asks for, whatever its openings."""
    return int(
        trace.call(
            least_joints,
            L=trace.given(millimetres(face.length), face.pointer),
            s=limit_mm,
            w=trace.given(millimetres(width), "/system/movement_joint"),
            tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
        )
    )


def _asked(given: float | None, member: str, rule: Rule | None, trace: Trace) -> float | None:
    """A limit of the request, or of the profile."""
    if given is not None:
        return trace.given(given, f"/system/movement_joint/{member}")
    return None if rule is None else rule.read(trace)


def step_clause(system: System) -> Clause | None:
    """Clause by which a change of height needs a joint, in the profile that a request keeps."""
    return profile_of(system).step
