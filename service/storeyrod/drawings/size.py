"""How large a drawing is, before anything is laid out."""

from storeyrod.drawings.models import DrawingRequest
from storeyrod.wall.mirror import source_of
from storeyrod.wall.size import estimated_units


def units_to_draw(request: DrawingRequest) -> int:
    """Slips and boards of the take-off, which is laid once, and of every elevation again for each of its sheets."""
    take_off = request.take_off
    known = {elevation.id: elevation for elevation in take_off.elevations}
    drawn = [source_of(known[sheet.elevation], known) for sheet in request.sheets if sheet.elevation in known]
    return estimated_units(take_off.elevations, take_off.system) + estimated_units(drawn, take_off.system)
