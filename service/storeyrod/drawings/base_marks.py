"""The base of a wall over its ground, where that differs from the foot as drawn: level runs in whole courses, and their steps."""

from collections.abc import Iterator
from typing import Final

from storeyrod.drawings.display_list import Group, Point, Polygon, Polyline, Text, box_polygon
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import BASE_STEPPED, BLANK, LETTERING, LETTERS_SMALL, finer
from storeyrod.setting_out.level_models import BaseRun, BaseStep, ElevationBase

_ABOVE: Final = 0.9
"""Distance of a level above its run on paper, mm."""


def base_steps(base: ElevationBase) -> list[BaseStep]:
    """Steps that the ground asks for."""
    return base.get("steps", []) if is_stepped(base) else []


def is_stepped(base: ElevationBase) -> bool:
    """Whether the base over the ground is another than the foot as drawn."""
    drawn, runs = base["as_drawn"], base.get("runs", [])
    return bool(runs) and _line(drawn) != _line(runs)


def _line(runs: list[BaseRun]) -> list[tuple[float, float, float]]:
    return [(run["x_from_mm"], run["x_to_mm"], run["level_mm"]) for run in runs]


def base_groups(base: ElevationBase, scale: float) -> tuple[Group, ...]:
    """The stepped base, its steps at perps, and the course and level of each run that has room for them."""
    if not is_stepped(base):
        return ()
    points = list(_points(base))
    labels = list(_labels(base, points, scale))
    return (
        Group("base-stepped", finer(BASE_STEPPED, scale), (Polyline(tuple(points)),)),
        Group("base-blank", BLANK, tuple(blank for blank, _ in labels)),
        Group("base-levels", LETTERING, tuple(text for _, text in labels)),
    )


def _points(base: ElevationBase) -> Iterator[Point]:
    """From the left, along each run to the step at its end."""
    runs = base["runs"]
    x = runs[0]["x_from_mm"]
    ends = [*(step["at_perp_x_mm"] for step in base["steps"]), runs[-1]["x_to_mm"]]
    for run, end in zip(runs, ends, strict=True):
        yield x, run["level_mm"]
        yield end, run["level_mm"]
        x = end


def _labels(base: ElevationBase, points: list[Point], scale: float) -> Iterator[tuple[Polygon, Text]]:
    """A level above the middle of its run, on a blank ground; left out where the run is shorter."""
    for run, (left, y), (right, _) in zip(base["runs"], points[::2], points[1::2], strict=True):
        words = f"base c {run['course']}, {number(run['level_mm'])}"
        long = width_of(words, LETTERS_SMALL) * scale
        if long <= right - left:
            middle, low = (left + right) / 2.0, y + _ABOVE * scale
            box = middle - long / 2.0, low, middle + long / 2.0, low + LETTERS_SMALL * scale
            yield box_polygon(box), Text((middle, low), words, LETTERS_SMALL, "middle")
