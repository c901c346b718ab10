"""Regions against shapely as an independent judge: random walls with openings, steps, rakes and arches."""

import math
from itertools import pairwise

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Polygon

from storeyrod.geometry.arc import arc_vertices
from storeyrod.geometry.plane import SMALLEST_PART, Part, Region, Ring, rectangle, tidy

WIDTH, HEIGHT = 60_000_000.0, 30_000_000.0
"""Six metres by three, in ticks."""

STEPS = st.integers(min_value=1, max_value=59).map(lambda step: step * 1_000_000.0)
LEVELS = st.integers(min_value=0, max_value=29).map(lambda level: level * 1_000_000.0)


@st.composite
def outlines(draw: st.DrawFn) -> Ring:
    """Rectangles, stepped feet, gables, lean-to roofs and stepped tops, two to three metres high."""
    foot_step, foot = draw(STEPS), draw(st.sampled_from([0.0, 1_500_000.0]))
    top = draw(
        st.sampled_from(
            [
                [(WIDTH, HEIGHT), (0.0, HEIGHT)],
                [(WIDTH, HEIGHT), (0.0, 22_000_000.0)],
                [(WIDTH, 21_000_000.0), (25_000_000.0, HEIGHT), (0.0, 21_000_000.0)],
                [(WIDTH, HEIGHT), (41_000_000.0, HEIGHT), (41_000_000.0, 24_000_000.0), (0.0, 24_000_000.0)],
            ]
        )
    )
    return tidy([(0.0, 0.0), (foot_step, 0.0), (foot_step, foot), (WIDTH, foot), *top])


@st.composite
def regions(draw: st.DrawFn) -> Region:
    """An outline with up to three openings side by side, rectangular or arched, some standing on the foot."""
    outline = draw(outlines())
    openings: list[Ring] = []
    for place in range(draw(st.integers(min_value=0, max_value=3))):
        left = place * 20_000_000.0 + draw(st.integers(min_value=0, max_value=5)) * 1_000_000.0
        width = draw(st.integers(min_value=4, max_value=14)) * 1_000_000.0
        sill = draw(st.sampled_from([1_500_000.0, 3_000_000.0, 9_123_457.0]))
        head = draw(st.sampled_from([12_000_000.0, 15_750_000.0]))
        if draw(st.booleans()):
            arc = arc_vertices(left, head, width, min(width / 2, 5_000_000.0))
            openings.append(tidy([(left, sill), (left + width, sill), *arc]))
        else:
            openings.append(rectangle(left, sill, left + width, head))
    return Region((outline, *openings))


@st.composite
def bands(draw: st.DrawFn) -> tuple[float, float]:
    bottom = draw(LEVELS) + draw(st.sampled_from([0.0, 250_000.0]))
    return bottom, bottom + draw(st.sampled_from([650_000.0, 750_000.0, 6_000_000.0]))


def truth(region: Region) -> shapely.Geometry:
    """The region built by shapely alone."""
    openings = shapely.union_all([Polygon(ring) for ring in region.rings[1:]])
    return shapely.difference(Polygon(region.rings[0]), openings)


def polygon_of(part: Part) -> Polygon:
    outer, *holes = part.outline
    return Polygon(outer, holes)


def close(area: float, expected: float) -> bool:
    """Within a tenth of a square millimetre, below the 1e-6 m2 that areas must close to."""
    return math.isclose(area, expected, rel_tol=1e-11, abs_tol=1e7)


@given(regions())
def test_the_area_is_shapely_s_area(region: Region) -> None:
    assert close(region.area, truth(region).area)
    assert close(region.polygon.area, truth(region).area)


@given(regions(), bands())
def test_slabs_cover_the_band(region: Region, band: tuple[float, float]) -> None:
    bottom, top = band
    expected = shapely.intersection(truth(region), shapely.box(-1.0, bottom, WIDTH + 1.0, top)).area
    assert close(sum(slab.area for slab in region.slabs(bottom, top)), expected)


@given(regions(), bands())
def test_clear_runs_lie_in_the_region_and_no_longer_run_does(region: Region, band: tuple[float, float]) -> None:
    bottom, top = band
    wall = truth(region).buffer(1.0)
    runs = region.clear_runs(bottom, top)
    assert all(shapely.covers(wall, shapely.box(low, bottom, high, top)) for low, high in runs)
    for low, high in runs:
        for x in (low - 2_000.0, high):
            column = shapely.box(x, bottom, x + 2_000.0, top)
            assert shapely.difference(column, truth(region)).area > 0
    probes = [step * 1_000_000.0 + 123_456.0 for step in range(60)]
    for x in probes:
        whole = shapely.covers(truth(region), shapely.box(x, bottom, x + 1_000.0, top))
        assert whole == any(low <= x and x + 1_000.0 <= high for low, high in runs)


@given(regions(), bands())
def test_any_runs_are_the_shadow_of_the_band(region: Region, band: tuple[float, float]) -> None:
    bottom, top = band
    runs = region.any_runs(bottom, top)
    for x in (step * 1_000_000.0 + 123_456.0 for step in range(60)):
        column = shapely.box(x, bottom, x + 1_000.0, top)
        touched = shapely.intersection(truth(region), column).area > SMALLEST_PART
        assert not touched or any(low < x + 1_000.0 and high > x for low, high in runs)


@given(regions(), bands(), st.lists(STEPS, min_size=1, max_size=5, unique=True))
@settings(max_examples=60)
def test_cells_are_shapely_s_parts(region: Region, band: tuple[float, float], cuts: list[float]) -> None:
    bottom, top = band
    columns = list(pairwise([0.0, *sorted(cuts), WIDTH]))
    for (left, right), parts in zip(columns, region.cells(bottom, top, columns), strict=True):
        clipped = shapely.intersection(truth(region), shapely.box(left, bottom, right, top))
        pieces = [one for one in _polygons(clipped) if one.area >= SMALLEST_PART]
        assert len(parts) == len(pieces)
        assert close(sum(part.area for part in parts), sum(piece.area for piece in pieces))
        for part in parts:
            assert close(polygon_of(part).area, part.area)
            assert polygon_of(part).bounds == (part.left, part.bottom, part.right, part.top)
            assert close(shapely.difference(polygon_of(part), clipped).area, 0.0)
            box = (part.right - part.left) * (part.top - part.bottom)
            assert close(part.area, box) if part.is_rectangle else part.area < box


def _polygons(geometry: shapely.Geometry) -> list[Polygon]:
    if isinstance(geometry, Polygon):
        return [geometry]
    if isinstance(geometry, MultiPolygon):
        return list(geometry.geoms)
    return [one for part in getattr(geometry, "geoms", []) for one in _polygons(part)]


@given(regions(), STEPS, LEVELS)
def test_what_is_cut_out_and_what_lies_within_make_the_whole(region: Region, x: float, y: float) -> None:
    box = (x, y, x + 7_500_000.0, y + 2_250_000.0)
    rest, inner = region.less(box), region.within(box)
    assert close(rest.area + inner.area, region.area)
    assert close(inner.area, shapely.intersection(truth(region), shapely.box(*box)).area)


@given(regions(), STEPS)
def test_a_wall_cut_in_two_is_still_the_whole_wall_to_every_later_cut(region: Region, x: float) -> None:
    cut = region.less((x, -1.0, x + 100_000.0, HEIGHT + 1.0))
    assert close(cut.polygon.area, cut.area)
    halves = cut.within((0.0, 0.0, x, HEIGHT)).area + cut.within((x, 0.0, WIDTH, HEIGHT)).area
    assert close(halves, cut.area)


@given(regions())
def test_axis_aligned_cuts_stay_on_whole_ticks(region: Region) -> None:
    cut = region.less((12_345_678.0, 2_345_678.0, 23_456_789.0, 3_456_789.0))
    upright = {edge[0][0] for ring in cut.rings for edge in pairwise((*ring, ring[0])) if edge[0][0] == edge[1][0]}
    assert all(x.is_integer() for x in upright)


@given(regions())
def test_a_mirrored_region_has_mirrored_runs(region: Region) -> None:
    mirrored = Region(tuple(tidy([(WIDTH - x, y) for x, y in ring]) for ring in region.rings))
    assert close(mirrored.area, region.area)
    for bottom in (0.0, 9_000_000.0, 14_250_000.0, 24_000_000.0):
        runs = region.clear_runs(bottom, bottom + 750_000.0)
        reflected = [(WIDTH - high, WIDTH - low) for low, high in reversed(runs)]
        found = mirrored.clear_runs(bottom, bottom + 750_000.0)
        assert len(found) == len(reflected)
        assert all(math.dist(a, b) < 0.01 for a, b in zip(found, reflected, strict=True))


@given(regions(), STEPS)
def test_a_plumb_line_and_a_level_line_run_where_shapely_s_do(region: Region, x: float) -> None:
    line = shapely.intersection(truth(region), shapely.LineString([(x + 1.0, -1.0), (x + 1.0, HEIGHT + 1.0)]))
    assert math.isclose(sum(high - low for low, high in region.heights_at(x + 1.0)), line.length, abs_tol=10.0)
    level = shapely.intersection(truth(region), shapely.LineString([(-1.0, x / 3 + 1.0), (WIDTH + 1.0, x / 3 + 1.0)]))
    assert math.isclose(sum(high - low for low, high in region.level_runs(x / 3 + 1.0)), level.length, abs_tol=10.0)
