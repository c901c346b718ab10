"""Line styles of the drawings, by the line groups and lettering heights of general drawing practice.

Weights are of the series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm (ISO 128-2, from memory); a long-dashed dotted line has dashes
of 24, gaps of 3 and dots of half a line weight (ISO 128-2, from memory); dashes are shortened here, so that a pattern shows in
a low wall. Heights of capitals are of the series 1.8, 2.5,
3.5, 5 mm (ISO 3098-1, from memory); ids of small pieces may be smaller. Black, white and light greys only.
"""

from dataclasses import replace
from typing import Final

from storeyrod.drawings.display_list import Style

FINE: Final = 0.13
THIN: Final = 0.18
MEDIUM: Final = 0.25
BROAD: Final = 0.35
THICK: Final = 0.5
HEAVY: Final = 0.7

WEIGHTS: Final = (FINE, THIN, MEDIUM, BROAD, THICK, HEAVY)

LETTERS_SMALLEST: Final = 1.3
LETTERS_SMALL: Final = 1.8
LETTERS: Final = 2.5
LETTERS_LARGE: Final = 3.5

_CUT_GREY: Final = 0.92


def _chain(weight: float) -> tuple[float, ...]:
    return (16 * weight, 3 * weight, weight, 3 * weight)


def finer(style: Style, scale: float) -> Style:
    """The style one weight thinner from 1:100 on and two from 1:200 on, where thick lines would run together."""
    steps = 0 if scale < 100 else 1 if scale < 200 else 2
    if steps == 0 or style.weight not in WEIGHTS:
        return style
    return replace(style, weight=WEIGHTS[max(0, WEIGHTS.index(style.weight) - steps)])


FULL_PIECE: Final = Style(THIN, fill=1.0)
CUT_PIECE: Final = Style(BROAD, fill=_CUT_GREY)
CUT_MARK: Final = Style(BROAD)
FACE_OUTLINE: Final = Style(HEAVY)
OPENING: Final = Style(THICK, fill=1.0)
OPENING_CROSS: Final = Style(FINE)
FASTENER: Final = Style(THIN)
JOINT_BLANK: Final = Style(1.0, grey=1.0)
JOINT: Final = Style(BROAD, dashes=_chain(BROAD))
DIMENSION: Final = Style(FINE)
DIMENSION_TICK: Final = Style(BROAD)
COURSE: Final = Style(FINE)
GROUND: Final = Style(HEAVY)
GROUND_HATCH: Final = Style(THIN)
DATUM: Final = Style(THIN, fill=0.0)
WHOLE_SLIP: Final = Style(THIN, fill=1.0)
HEADER_SLIP: Final = Style(THIN, fill=0.72)
CUT_SLIP: Final = Style(THIN, fill=_CUT_GREY)
L_SLIP: Final = Style(MEDIUM, fill=1.0)
SLIP_MARK: Final = Style(THIN)
SLIP_FLAG: Final = Style(MEDIUM)
PLUMB_PERP: Final = Style(FINE, dashes=(2.4, 1.2))
PLUMB_JAMB: Final = Style(FINE, dashes=(6.0, 1.0, 0.6, 1.0))
SET_OUT_COURSE: Final = Style(0.0, fill=0.85)
SET_OUT_PERP: Final = Style(BROAD)
BOND_START: Final = Style(MEDIUM, fill=0.0)
BASE_STEPPED: Final = Style(THICK, dashes=(3.0, 1.5))
CUT_EDGE: Final = Style(BROAD)
UP_ARROW: Final = Style(MEDIUM, fill=0.0)
BOARD_EDGE: Final = Style(THICK)
SAWN_EDGE: Final = Style(MEDIUM, dashes=(1.5, 1.0))
SAW_CUT: Final = Style(BROAD)
CUT_NUMBER: Final = Style(THIN, fill=1.0)
RIB: Final = Style(FINE, dashes=(0.6, 0.9), grey=0.35)
KEPT: Final = Style(FINE)
WASTE: Final = Style(FINE, fill=1.0)
EXISTING_JOINT: Final = Style(BROAD, dashes=(2.0, 1.2))
BAY_FRAME: Final = Style(THIN, fill=1.0)
BAY_WITHIN: Final = Style(THIN, fill=0.8)
BAY_OVER: Final = Style(THIN, fill=0.0)
FRAME: Final = Style(HEAVY)
RULING: Final = Style(MEDIUM)
BLANK: Final = Style(0.0, fill=1.0)
SOLID: Final = Style(THIN, fill=0.0)
LETTERING: Final = Style(0.0)
