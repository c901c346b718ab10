"""Features on a face: their outline, and what covers them in place of slips."""

from collections.abc import Iterator
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Polygon, Rings, Style, Text, box_polygon
from storeyrod.drawings.lettering import box_around, fits, width_of
from storeyrod.drawings.line_styles import BLANK, LETTERING, LETTERS_SMALL, LETTERS_SMALLEST, MEDIUM, finer
from storeyrod.drawings.piece_marks import points_of
from storeyrod.wall.face import Face
from storeyrod.wall.features import FaceFeature

FEATURE: Final = Style(MEDIUM, dashes=(4.0, 1.5))

_SHARES: Final = (0.5, 0.25, 0.75)
"""Where a name is tried: at these shares of the box of a feature."""

_ROOM: Final = 1.5
"""Room that a line of lettering takes, over the height of its capitals."""


def feature_groups(face: Face, scale: float) -> tuple[Group, ...]:
    """Features of a face in the finished plane; none where it has none."""
    if not face.features:
        return ()
    names = [name for feature in face.features if (name := _name(feature, scale))]
    return (
        Group("feature", finer(FEATURE, scale), tuple(_outline(face, feature) for feature in face.features)),
        Group("feature-blank", BLANK, tuple(box_polygon(box) for box, _ in names)),
        Group("feature-names", LETTERING, tuple(text for _, text in names)),
    )


def _words(feature: FaceFeature) -> str:
    facing = feature.model.facing
    return f"{feature.id}: {facing}" if facing else feature.id


def _outline(face: Face, feature: FaceFeature) -> Polygon:
    return Polygon((points_of(feature.ring),), f"{face.id}:feature:{feature.id}", f"{_words(feature)}, no slips")


def _name(feature: FaceFeature, scale: float) -> tuple[Box, Text] | None:
    """The name where it fits into the feature, first with what covers it; its title names a feature that is too small."""
    outline: Rings = (points_of(feature.ring),)
    for words in (_words(feature), feature.id):
        for letters in (LETTERS_SMALL, LETTERS_SMALLEST):
            for box in _places(Polygon(outline).box, width_of(words, letters) * scale, letters * _ROOM * scale):
                if fits(box, outline):
                    at = (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0
                    return box, Text(at, words, letters, "middle", middle=True)
    return None


def _places(box: Box, long: float, high: float) -> Iterator[Box]:
    left, bottom, right, top = box
    for up in _SHARES:
        for along in _SHARES:
            yield box_around((left + (right - left) * along, bottom + (top - bottom) * up), long, high)
