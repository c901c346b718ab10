"""Lists of pieces that are known to come out of a number of boards: boards are sawn at random, and the parts are the list."""

from hypothesis import strategies as st

from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

BOARD = Blank(120.0, 60.0, FACTORY, 0.0, None)

edges = st.one_of(st.just(NO_EDGE), st.just(FACTORY), st.builds(Edges, *[st.booleans()] * 4))
saws = st.builds(Saw, st.sampled_from([0.0, 3.0, 5.0]), st.sampled_from([None, None, 15.0, 7.0]))


@st.composite
def sawn_jobs(draw, board=BOARD, saws=saws, most_boards=3, offcuts=2):
    """Items, offcuts at hand, saw, and a number of boards that is enough."""
    saw = draw(saws)
    boards = draw(st.integers(0, most_boards))
    stock = [draw(_offcuts(board, saw)) for _ in range(draw(st.integers(0, offcuts)))]
    items = []
    for blank in (*[board] * boards, *stock):
        items += _sawn(draw, blank, saw, (0.0, 0.0, blank.width, blank.height), 3)
    return items, stock, saw, boards


@st.composite
def _offcuts(draw, board, saw):
    width, height = (float(draw(st.integers(10, int(length)))) for length in (board.width, board.height))
    phase = 0.0 if saw.rib_pitch is None else float(draw(st.integers(0, int(saw.rib_pitch) - 1)))
    return Blank(width, height, draw(edges), phase, 1)


def _sawn(draw, blank, saw, part, depth):
    x, y, width, height = part
    way = draw(st.sampled_from(["piece", "piece", "rest", "upright", "level"])) if depth else "piece"
    if way == "upright" and width >= saw.kerf + 2.0:
        at = float(draw(st.integers(1, int(width - saw.kerf) - 1)))
        far = (x + at + saw.kerf, y, width - at - saw.kerf, height)
        return _sawn(draw, blank, saw, (x, y, at, height), depth - 1) + _sawn(draw, blank, saw, far, depth - 1)
    if way == "level" and height >= saw.kerf + 2.0:
        at = float(draw(st.integers(1, int(height - saw.kerf) - 1)))
        far = (x, y + at + saw.kerf, width, height - at - saw.kerf)
        return _sawn(draw, blank, saw, (x, y, width, at), depth - 1) + _sawn(draw, blank, saw, far, depth - 1)
    return [] if way == "rest" else [_item(draw, blank, saw, part)]


def _item(draw, blank, saw, part):
    """A part as something to cut, that needs some of the factory edges it has, and stands as it did."""
    x, y, width, height = part
    has = (x == 0.0, x + width == blank.width, y == 0.0, y + height == blank.height)
    needs = Edges(*(edge and at_edge and draw(st.booleans()) for edge, at_edge in zip(blank.edges, has, strict=True)))
    phase = 0.0 if saw.rib_pitch is None else (blank.phase + y) % saw.rib_pitch
    return Item(width, height, needs, phase, 1)
