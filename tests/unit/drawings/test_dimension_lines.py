"""Dimension figures: no extension line runs through one, and a line that is broken for it goes on beyond."""

import pytest
from sheet_geometry import box_of_text

from drawing_walls import ALL_WALLS, groups_of, sheet_of, texts_of
from storeyrod.drawings.dimensions import Chain, dimensions
from storeyrod.drawings.display_list import Line, Sheet, View
from storeyrod.drawings.subjects import KINDS

STEEP = {
    "id": "steep",
    "outline": [{"x_mm": x, "y_mm": y} for x, y in ((0, 0), (8000, 0), (8000, 2000), (4000, 12_000), (0, 2000))],
}


def lines_of(*chains: Chain) -> list[Line]:
    (lines, _, _) = dimensions(chains, 1.0)
    return [line for line in lines.items if isinstance(line, Line)]


def at(lines: list[Line], x: float) -> list[tuple[float, float]]:
    """Plumb lines at a place, from where to where, from below."""
    return sorted(
        (min(one.start[1], one.end[1]), max(one.start[1], one.end[1]))
        for one in lines
        if one.start[0] == one.end[0] == x
    )


def test_an_extension_line_of_a_lower_chain_is_broken_at_a_figure_above():
    """The figure 100 stands from 0.9 over its line at -10 up, 1.8 high and about 4.8 long, in the middle of 0 to 100; the lower chain
    stops at 51. Half a millimetre beside the figure is kept free.
    """
    upper, lower = Chain((0.0, 100.0), -10.0, -2.0), Chain((0.0, 51.0, 100.0), -20.0, -2.0)
    ((low, high), (start, end)) = at(lines_of(upper, lower), 51.0)
    assert (low, end) == (-20.0 - 1.2, -2.0)
    assert (high, start) == (pytest.approx(-10.0 + 0.9 - 0.5), pytest.approx(-10.0 + 0.9 + 1.8 + 0.5))


def test_an_extension_line_clear_of_figures_is_whole():
    upper, lower = Chain((0.0, 100.0), -10.0, -2.0), Chain((0.0, 40.0, 100.0), -20.0, -2.0)
    assert at(lines_of(upper, lower), 40.0) == [(-21.2, -2.0)]


def test_level_extension_lines_of_upright_chains_are_broken_too():
    inner, outer = Chain((0.0, 100.0), 10.0, 2.0, upright=True), Chain((0.0, 50.0, 100.0), 20.0, 2.0, upright=True)
    level = [one for one in lines_of(inner, outer) if one.start[1] == one.end[1] == 50.0]
    assert sorted(one.start[0] for one in level) == [2.0, pytest.approx(10.0 - 0.9 + 0.5)]


def struck(sheet: Sheet) -> list[str]:
    """Figures through which a dimension or extension line runs."""
    lines = [
        (view, item) for view, group in groups_of(sheet, "dimensions") for item in group.items if isinstance(item, Line)
    ]
    return [
        text.words
        for view, text in texts_of(sheet, "dimension-figures")
        if any(_runs_through(box_of_text(view, text), *_ends(on, line)) for on, line in lines)
    ]


def _ends(view: View, line: Line) -> tuple[tuple[float, float], tuple[float, float]]:
    return view.on_paper(line.start), view.on_paper(line.end)


def _runs_through(box, start, end) -> bool:
    left, bottom, right, top = box
    xs, ys = sorted((start[0], end[0])), sorted((start[1], end[1]))
    return xs[0] < right - 0.01 and xs[1] > left + 0.01 and ys[0] < top - 0.01 and ys[1] > bottom + 0.01


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("cut_sheets", "load_path")])
@pytest.mark.parametrize("wall", [*ALL_WALLS.values(), STEEP], ids=[*ALL_WALLS, "steep"])
def test_no_figure_is_struck_through(wall, kind):
    assert struck(sheet_of(wall, kind=kind)) == []
