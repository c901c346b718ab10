"""Hatching of materials in a section: the closer the strokes, the better the material conducts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Shapes, Strokes, Style, box_polygon
from storeyrod.drawings.legend_entries import PIECE
from storeyrod.drawings.line_styles import FINE, FULL_PIECE
from storeyrod.drawings.material_regions import Regions
from storeyrod.drawings.zone_hatching import FALLING, LEVEL, PLUMB, RISING, Hatch, strokes_between, strokes_in

_DASHED: Final = (2.4, 1.2)
_DOTTED: Final = (0.7, 0.9)

_BY_CONDUCTIVITY: Final = (
    Hatch(RISING, 4.6, _DOTTED),
    Hatch(FALLING, 4.6, _DASHED),
    Hatch(LEVEL, 4.0, _DASHED),
    Hatch(RISING, 3.8),
    Hatch(PLUMB, 3.4, _DASHED),
    Hatch(FALLING, 3.2),
    Hatch(LEVEL, 2.8),
    Hatch(RISING, 2.5, _DASHED),
    Hatch(PLUMB, 2.2),
    Hatch(FALLING, 1.9),
    Hatch(RISING, 1.6),
    Hatch(LEVEL, 1.3),
)
"""From a material that insulates to one that conducts; neighbours in the row differ in direction."""

METALLIC: Final = 10.0
"""A material of at least this conductivity in W/(m.K) is filled and not hatched: sheets are thinner than strokes are apart."""

_METAL: Final = Style(0.0, fill=0.6)
_GREY: Final = 0.55


@dataclass(frozen=True, slots=True)
class Material:
    """A material of a section: its name, its conductivity in W/(m.K) and how it is hatched; none for metals."""

    name: str
    conductivity: float
    hatch: Hatch | None


def materials_of(named: Sequence[tuple[str, float]]) -> list[Material]:
    """Materials with their hatching, in the order given; one of some conductivity always looks as its rank asks."""
    ranked = sorted({conductivity for _, conductivity in named if conductivity < METALLIC})
    last = max(len(ranked) - 1, 1)
    hatches = {
        one: _BY_CONDUCTIVITY[round(rank * (len(_BY_CONDUCTIVITY) - 1) / last)] for rank, one in enumerate(ranked)
    }
    return [Material(name, conductivity, hatches.get(conductivity)) for name, conductivity in named]


def material_groups(regions: Regions, materials: Sequence[Material], scale: float) -> Iterator[Group]:
    """Hatching of every material, and fills of metals, in a view at one to ``scale``."""
    for index, material in enumerate(materials):
        yield Group("material", *_drawn(regions, index, material, scale), id=f"material-{index + 1}")


def _drawn(regions: Regions, index: int, material: Material, scale: float) -> tuple[Style, tuple[Item, ...]]:
    title = f"{index + 1}: {material.name}, {material.conductivity:g} W/(m·K)"
    if material.hatch is None:
        boxes = tuple(regions.level_boxes(index))
        return _METAL, (Shapes(boxes, title=title),)
    return _style(material.hatch), (Strokes(tuple(strokes_between(regions.borders(index), material.hatch, scale))),)


def _style(hatch: Hatch) -> Style:
    return Style(FINE, dashes=hatch.dashes, grey=_GREY)


def material_cell(material: Material) -> tuple[tuple[str, Style, Item], ...]:
    """A piece of a material, as a table shows it."""
    return material_cell_in(PIECE, material)


def material_cell_in(box: Box, material: Material) -> tuple[tuple[str, Style, Item], ...]:
    """A box of the paper filled with a material."""
    frame = box_polygon(box)
    if material.hatch is None:
        return (("material-frame", replace(FULL_PIECE, fill=_METAL.fill), frame),)
    strokes = Strokes(tuple(strokes_in(frame.rings, material.hatch, 1.0)))
    return (("material-frame", FULL_PIECE, frame), ("material", _style(material.hatch), strokes))
