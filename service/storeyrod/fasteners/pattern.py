"""The pattern of fasteners: how many across a piece and how many courses carry them, as formulas.

Common practice with no source: four across a board and one row every fourth course. It is a minimum and no wind check.
"""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import ROUNDING_GUARD, exact_ticks, ticks
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.system import System

FEWEST_COLUMNS: Final = 2
"""House rule: a piece that is wide enough has fasteners in at least two plumb lines."""


@formula(
    symbol="n_c",
    expression="Max(n_min, ceiling(c*w/l - tolerance))",
    unit="count",
    inputs={"n_min": "count", "c": "count", "w": "mm", "l": "mm", "tolerance": "count"},
    clause=COMMON_PRACTICE,
)
def columns_across(*, n_min: float, c: float, w: float, l: float, tolerance: float) -> float:  # noqa: E741  symbol
    """Fasteners across a piece of width w, when a board of length l has c."""
    return max(n_min, math.ceil(c * w / l - tolerance))


@formula(
    symbol="n_r",
    expression="ceiling(k/n - tolerance)",
    unit="count",
    inputs={"k": "count", "n": "count", "tolerance": "count"},
    clause=COMMON_PRACTICE,
)
def rows_over(*, k: float, n: float, tolerance: float) -> float:
    """Rows of fasteners over k courses, one every n courses."""
    return math.ceil(k / n - tolerance)


@formula(
    symbol="k",
    expression="floor(h/p + tolerance)",
    unit="count",
    inputs={"h": "mm", "p": "mm", "tolerance": "count"},
    clause=GEOMETRY,
)
def courses_in(*, h: float, p: float, tolerance: float) -> float:
    """Whole courses of pitch p in a height h."""
    return math.floor(h / p + tolerance)


@formula(symbol="n_b", expression="n_c*n_r", unit="count", inputs={"n_c": "count", "n_r": "count"}, clause=GEOMETRY)
def fasteners_in_board(*, n_c: float, n_r: float) -> float:
    """Fasteners in a whole board: columns times rows."""
    return n_c * n_r


@formula(symbol="rho", expression="n/A", unit="per_m2", inputs={"n": "count", "A": "m2"}, clause=GEOMETRY)
def density(*, n: float, A: float) -> float:  # noqa: N803  symbol of the formula
    """Fasteners per square metre."""
    return n / A


CLOSEST_MM: Final = 20.0
"""House rule: heads that stand closer would lie over each other; a lesser spacing counts as this one."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """The pattern and its limits, lengths in ticks; ``from_end`` is the distance from the end of the substrate at a corner.

    Courses are numbered here from ``foot``, the foot of the lowest row of boards, or of the lowest over a level joint, so that the
    pattern falls alike on every board wherever course 0 of the gauge stands.
    """

    columns: int
    board: float
    every: int
    pitch: float
    slip: float
    edge: float
    spacing: float
    least: int
    from_end: float
    foot: float = 0.0

    @property
    def narrow(self) -> float:
        """Width below which a piece has no room for two columns."""
        return 2.0 * self.edge + self.spacing

    def columns_for(self, width: float) -> int:
        """Fasteners across a width: one in the middle where there is no room for two."""
        if width < self.narrow:
            return 1
        return int(
            columns_across.function(
                n_min=FEWEST_COLUMNS, c=self.columns, w=width, l=self.board, tolerance=ROUNDING_GUARD
            )
        )

    def most_in(self, room: Interval) -> int:
        """Fasteners that a room holds at the least spacing."""
        return math.floor((room[1] - room[0]) / self.spacing + ROUNDING_GUARD) + 1

    def height_of(self, course: int) -> float:
        """Middle of the slip bed of a course: there the slip covers the head of the fastener."""
        return self.foot + float(round(course * self.pitch)) + self.slip / 2.0

    def heights_between(self, low: float, high: float) -> dict[int, float]:
        """Courses whose middles keep the edge distance from a foot and a head, from the lowest, with these middles."""
        return {course: self.height_of(course) for course in self.courses_between(low + self.edge, high - self.edge)}

    def courses_between(self, low: float, high: float) -> range:
        """Courses whose middles lie between two heights, both included."""
        first = self.foot + self.slip / 2.0
        lowest, highest = (low - first) / self.pitch, (high - first) / self.pitch
        return range(math.ceil(lowest - ROUNDING_GUARD), math.floor(highest + ROUNDING_GUARD) + 1)


def pattern_of(system: System, foot: float) -> Pattern:
    """The pattern of a system on boards whose lowest row stands at ``foot``, in ticks."""
    fastener = system.fastener
    return Pattern(
        fastener.columns_count,
        ticks(system.board.cover_length_mm),
        fastener.every_nth_course,
        exact_ticks(course_pitch_of(system)),
        ticks(system.slip.height_mm),
        ticks(fastener.edge_distance_mm),
        ticks(max(fastener.min_spacing_mm, CLOSEST_MM)),
        fastener.min_per_piece_count,
        ticks(fastener.distance_from_end),
        foot,
    )


def full_board_count(system: System, trace: Trace = SILENT) -> float:
    """Fasteners that the pattern puts into a whole board."""
    board, fastener = system.board, system.fastener
    tolerance = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    length = trace.given(board.cover_length_mm, "/system/board/cover_length_mm")
    across = trace.call(
        columns_across,
        n_min=trace.lookup("n_min", FEWEST_COLUMNS, "count", COMMON_PRACTICE),
        c=trace.given(fastener.columns_count, "/system/fastener/columns_count"),
        w=length,
        l=length,
        tolerance=tolerance,
    )
    courses = trace.call(
        courses_in,
        h=trace.given(board.cover_height_mm, "/system/board/cover_height_mm"),
        p=course_pitch_of(system, trace),
        tolerance=tolerance,
    )
    rows = trace.call(
        rows_over,
        k=courses,
        n=trace.given(fastener.every_nth_course, "/system/fastener/every_nth_course"),
        tolerance=tolerance,
    )
    return trace.call(fasteners_in_board, n_c=across, n_r=rows)
