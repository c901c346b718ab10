"""What was tidied in an outline as it was sent."""

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.plane import signed_area
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.face import Face


def outline_findings(face: Face) -> list[Finding]:
    """An outline that was turned round, or lost corners that repeat others or lie on a straight edge."""
    points = face.elevation.outline
    if points is None or face.elevation.mirror_of is not None:
        return []
    sent = [(ticks(point.x_mm), ticks(point.y_mm)) for point in points]
    dropped = len(sent) - len(face.outline)
    clockwise = signed_area(sent) < 0
    if dropped <= 0 and not clockwise:
        return []
    turned = "The outline was turned round to run anticlockwise" if clockwise else "The outline runs anticlockwise"
    advice = f"{turned}; corners left out that repeat another or lie on a straight edge: {max(0, dropped)}. Nothing needs doing."
    where: Where = {"pointer": f"{face.pointer}/outline", "elevation": face.id}
    return [finding("outline-normalised", where, value=float(max(0, dropped)), limit=0.0, unit="count", advice=advice)]
