"""Features on a face: their outline, and what covers them in place of slips."""

from collections.abc import Iterator
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Point, Polygon, Rings, Style, Text
from storeyrod.drawings.lettering import box_around, fits, width_of
from storeyrod.drawings.line_styles import LETTERING, LETTERS_SMALL, LETTERS_SMALLEST, MEDIUM, finer
from storeyrod.drawings.piece_marks import points_of
from storeyrod.wall.face import Face
from storeyrod.wall.features import FaceFeature

FEATURE: Final = Style(MEDIUM, dashes=(4.0, 1.5))

_SHARES: Final = (0.0, 0.5, 1.0, 0.25, 0.75)
"""Where a name is tried, by shares of the room that the box of a feature leaves it: in a corner before the middle, where the
ids of boards stand.
"""

_MARGIN: Final = 0.5
"""Between lettering and outline on paper, mm."""


def feature_groups(face: Face, scale: float) -> tuple[Group, ...]:
    """Features of a face in the finished plane; none where it has none. Nothing is blanked: boards run on behind them."""
    if not face.features:
        return ()
    names = [name for feature in face.features if (name := _name(feature, scale))]
    return (
        Group("feature", finer(FEATURE, scale), tuple(_outline(face, feature) for feature in face.features)),
        Group("feature-names", LETTERING, tuple(names)),
    )


def _words(feature: FaceFeature) -> str:
    facing = feature.model.facing
    return f"{feature.id}: {facing}" if facing else feature.id


def _outline(face: Face, feature: FaceFeature) -> Polygon:
    return Polygon((points_of(feature.ring),), f"{face.id}:feature:{feature.id}", f"{_words(feature)}, no slips")


def _name(feature: FaceFeature, scale: float) -> Text | None:
    """The name where it fits into the feature, first with what covers it; the title of the outline names one too small for it."""
    outline: Rings = (points_of(feature.ring),)
    around = Polygon(outline).box
    for words in (_words(feature), feature.id):
        for letters in (LETTERS_SMALL, LETTERS_SMALLEST):
            long, high = width_of(words, letters) * scale, letters * scale
            for at in _places(around, long + 2 * _MARGIN * scale, high + 2 * _MARGIN * scale):
                if fits(box_around(at, long, high), outline):
                    return Text(at, words, letters, "middle", middle=True)
    return None


def _places(box: Box, long: float, high: float) -> Iterator[Point]:
    """Middles of places of a size in a box: from the top, and from the left."""
    left, bottom, right, top = box
    for down in _SHARES:
        for along in _SHARES:
            x = left + long / 2.0 + (right - left - long) * along
            yield x, top - high / 2.0 - (top - bottom - high) * down
