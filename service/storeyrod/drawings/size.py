"""How large a drawing is, before anything is laid out."""

from storeyrod.drawings.models import DrawingRequest, elevations_shown
from storeyrod.wall.mirror import source_of
from storeyrod.wall.size import estimated_units


def units_to_draw(request: DrawingRequest) -> int:
    """Slips and boards of the take-off, which is laid once, and of every elevation again for each sheet that shows it.

    Sheets without a take-off count as one unit.
    """
    take_off = request.take_off
    if take_off is None:
        return 1
    known = {elevation.id: elevation for elevation in take_off.elevations}
    shown = [name for sheet in request.sheets for name in elevations_shown(sheet, [*known])]
    drawn = [source_of(known[name], known) for name in shown if name in known]
    return estimated_units(take_off.elevations, take_off.system) + estimated_units(drawn, take_off.system)
