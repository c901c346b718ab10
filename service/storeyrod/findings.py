"""The closed catalogue of findings and of the problems that stop a request.

A *finding* stands in an answer and points at one place of the wall. A *refusal* stops the request: the HTTP side turns it
into a problem document whose slug is the same word. Every entry says what triggers it; ``tests/unit/test_findings.py``
holds a case that does and one just inside that does not.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final, Literal, NotRequired

from typing_extensions import TypedDict

Level = Literal["stop", "caution", "info"]


@dataclass(frozen=True, slots=True)
class FindingKind:
    """Catalogue entry of a finding."""

    code: str
    level: Level
    meaning: str
    trigger: str
    advice: str


@dataclass(frozen=True, slots=True)
class RefusalKind:
    """Catalogue entry of a domain problem that stops the whole request."""

    slug: str
    title: str
    trigger: str
    advice: str


class Where(TypedDict):
    """Where on the wall, or in the request, a finding lies."""

    pointer: NotRequired[str]
    elevation: NotRequired[str]
    opening: NotRequired[str]
    x_mm: NotRequired[float]
    y_mm: NotRequired[float]
    pieces: NotRequired[list[str]]


class Finding(TypedDict):
    """One remark on the answer: code, place, measured value, limit and what to do."""

    code: str
    level: Level
    where: Where
    value: NotRequired[float]
    limit: NotRequired[float]
    unit: NotRequired[str]
    advice: str


def _findings(*rows: FindingKind) -> Mapping[str, FindingKind]:
    return MappingProxyType({row.code: row for row in rows})


def _refusals(*rows: RefusalKind) -> Mapping[str, RefusalKind]:
    return MappingProxyType({row.slug: row for row in rows})


FINDINGS: Final = _findings(
    FindingKind("corner-partner-missing", "caution", "The edge met at a corner is not in this request.",
                "left_edge.to or right_edge.to names an elevation that the request does not hold.",
                "Add the other elevation, or leave out `to`; until then the corner is counted by this face alone."),
    FindingKind("corner-height-mismatch", "caution", "The two edges of a corner differ in height or level.",
                "Foot or head of the two edges differ by more than 1 mm.",
                "Check both outlines; corner units are counted over the courses that both edges have."),
    FindingKind("head-off-course", "caution", "The head of an opening is not on a course line.",
                "Distance of the head from the nearest course line is over 0.5 mm.",
                "Move the datum or the head, adjust the beds, or accept a ripped course over the opening."),
    FindingKind("sill-off-course", "caution", "The sill of an opening is not on a course line.",
                "Distance of the sill from the nearest course line is over 0.5 mm.",
                "Move the datum or the sill, adjust the beds, or accept a ripped course under the opening."),
    FindingKind("top-off-course", "caution", "A level top of the wall is not on a course line.",
                "Distance of a level top edge from the nearest course line is over 0.5 mm.",
                "Move the datum, adjust the beds, or accept a ripped closing course."),
    FindingKind("base-below-ground", "caution", "The wall starts below the ground given.",
                "Ground level is above the foot of the outline.",
                "Raise the base in whole courses, or correct the ground levels."),
    FindingKind("clearance-short", "caution", "The cladding starts too close to the ground.",
                "Foot of the outline less ground level is under the clearance asked.",
                "Step the base up in whole courses where the ground is high."),
    FindingKind("survey-mismatch", "caution", "Survey and outline give different finished lengths.",
                "Substrate length plus the build-up at its corners differs from the outline by more than 1 mm.",
                "Measure again, or check build-up thickness and edge kinds."),
    FindingKind("sliver", "caution", "Cut slips are shorter than the least length allowed.",
                "Length of a cut slip is under minimum_cut_mm.",
                "Set options.perps to equalised, shift the bond, or close with a reverse bond."),
    FindingKind("rip-course", "caution", "Slips are ripped lower than the least height allowed.",
                "Height of a piece is under minimum_rip_mm.",
                "Move the datum, or adjust beds inside their limits."),
    FindingKind("perp-out-of-range", "caution", "Perps cannot be equalised inside their limits.",
                "The equal perp of a run is under perp_min_mm or over perp_max_mm.",
                "Change the length, the datum of the bond, or the limits; nominal perps were kept."),
    FindingKind("soldier-perp-out-of-range", "caution", "The joints of a soldier course leave their limits.",
                "The equal joint between soldiers is under perp_min_mm or over perp_max_mm.",
                "Change the opening width to a whole number of soldiers, or extend the course over the jambs."),
    FindingKind("soldier-clipped", "caution", "A soldier course runs into the top, an end or another opening.",
                "Part of the soldier zone lies outside the net wall.",
                "Lower the head, or lay plain courses over this opening."),
    FindingKind("piece-narrow", "caution", "A board piece is narrower than the least width.",
                "Width of a piece, or of the wall it fills, is under minimum_piece_mm.",
                "Shift the first board of the row, or fill the place by a wider cut of its neighbour."),
    FindingKind("stagger-short", "caution", "Seams of neighbouring rows come too close.",
                "Distance of two seams in neighbouring rows is under stagger_mm.",
                "Shift the first board of one of the rows."),
    FindingKind("cut-off-rib-line", "caution", "A board is cut level between two ribs.",
                "A level cut lies more than 0.5 mm off the rib lines.",
                "Bring the edge onto a course line; otherwise the slip there has no rib to stand on."),
    FindingKind("pier-narrow", "caution", "A piece is too narrow for two columns of fasteners.",
                "Width is under twice the edge distance plus the least spacing.",
                "One centred column is used; check the resistance with the supplier's declaration."),
    FindingKind("edge-distance-impossible", "caution", "A piece is too small to keep the edge distance.",
                "No place in the piece keeps edge_distance_mm from every edge.",
                "Enlarge the piece, or agree a smaller edge distance with the supplier; fasteners were set in the middle."),
    FindingKind("fasteners-few", "caution", "A piece has room for fewer fasteners than it should get.",
                "Places that keep edge distance and spacing are fewer than min_per_piece_count.",
                "Enlarge the piece, or agree a smaller spacing with the supplier."),
    FindingKind("no-legal-joint-position", "stop", "A bay is too long and no movement joint may stand in it.",
                "Every permitted position in reach lies in or too near an opening.",
                "Shorten clear_of_opening_mm, allow a longer bay, or plan a joint on a jamb line with the designer."),
    FindingKind("joint-crosses-opening", "info", "A movement joint meets an opening and continues beyond it.",
                "The line of an existing joint crosses an opening.",
                "Seal around the opening; movement must be taken at its frame."),
    FindingKind("pack-unknown", "info", "A line has no pack size.",
                "packs holds no size for a line that the wall needs.",
                "Give the pack size to have whole packs; the line is in its own unit."),
    FindingKind("pooling-saves", "info", "One order for all elevations needs fewer packs than one order each.",
                "Packs of the pooled line are fewer than the packs of the elevations added up.",
                "Order once, and deliver by elevation."),
    FindingKind("fastener-heat-unknown", "caution", "Fasteners exist, but their heat loss is not declared.",
                "fastener.chi_w_per_k is absent.",
                "Give the declared value; until then the U-value with fasteners is a range."),
    FindingKind("combined-method-limit", "caution", "The two limits of resistance lie far apart.",
                "Upper limit over lower limit is more than 1.5.",
                "The combined method does not hold; calculate the section numerically."),
    FindingKind("correction-ignored", "info", "Corrections below 3 % of U were left out.",
                "The corrections add up to less than 3 % of the uncorrected U-value.",
                "None needed; the corrected value is given beside."),
    FindingKind("beyond-ventilated-layer", "info", "Layers outside a well-ventilated air layer were not counted.",
                "An air layer is strongly ventilated.",
                "None needed; its outer surface counts as an internal one."),
    FindingKind("metal-bridge", "caution", "Insulation is bridged by metal.",
                "A part of a bridged layer conducts over 100 times as well as another part.",
                "The combined method does not hold for metal; use a fastener correction or a numerical calculation."),
)

REFUSALS: Final = _refusals(
    RefusalKind("outline-missing", "An elevation has no outline", "Neither outline nor both width_mm and height_mm are given.",
                "Give outline, or width_mm and height_mm."),
    RefusalKind("outline-contradictory", "An elevation has two outlines", "outline stands beside width_mm or height_mm.",
                "Give outline, or width_mm and height_mm, not both."),
    RefusalKind("geometry-self-intersecting", "An outline crosses or touches itself", "The ring of corners encloses no single area.",
                "List the corners in order along the outline, each once."),
    RefusalKind("outline-too-small", "An outline is too small", "The outline has fewer than three distinct corners, or is under 1000 mm2.",
                "Check the unit: coordinates are millimetres."),
    RefusalKind("opening-outside-outline", "An opening lies outside the outline", "Part of an opening lies outside its elevation.",
                "Move the opening inside, or enlarge the outline."),
    RefusalKind("opening-overlap", "Two openings overlap", "Two openings of an elevation share an area.",
                "Move one of them, or join them into one."),
    RefusalKind("opening-fills-wall", "Openings leave no wall", "The net area of an elevation is zero.",
                "Check the sizes of the openings."),
    RefusalKind("opening-lining-too-thick", "Linings close an opening", "The linings of an opening leave no clear width or height.",
                "Check lining_mm of the reveals."),
    RefusalKind("arch-too-high", "An arch rises more than half its width", "rise_mm is over half of width_mm, or springing_mm is below sill_mm.",
                "A circular arch rises at most half its width; give the jambs by springing_mm."),
    RefusalKind("soldier-over-arch", "A soldier course cannot stand over an arch", "An arch opening has head soldier.",
                "Set head to plain."),
    RefusalKind("duplicate-id", "An id is used twice", "Two elevations, or two openings of one elevation, have the same id.",
                "Give each its own id."),
    RefusalKind("corner-contradictory", "The two edges of a corner contradict each other",
                "An edge's `to` names an edge that names another one, is of another kind, or is the edge itself.",
                "Make `to` of both edges name each other, with the same kind of corner."),
    RefusalKind("pitch-mismatch", "Ribs and courses have different pitch", "rib_pitch_mm differs from slip height plus bed by more than 0.05 mm.",
                "Choose a bed that makes the course equal to the rib pitch, or leave out rib_pitch_mm for a plain board."),
    RefusalKind("board-smaller-than-course", "A board is lower than a course", "cover_height_mm is under one course.",
                "Check the board's cover height and the slip's height."),
    RefusalKind("board-not-whole-courses", "A board does not cover whole courses", "cover_height_mm is not a multiple of rib_pitch_mm within 0.05 mm.",
                "Give the cover height, not the overall height with the tongue."),
    RefusalKind("corner-too-short", "A face is shorter than the build-up at its corners", "Nothing is left of a face once the build-up is taken off.",
                "Check the outline, the plane and the build-up."),
    RefusalKind("joint-outside-outline", "An existing joint lies outside the wall", "existing_joints_x_mm is outside the elevation.",
                "Give the joint in the coordinates of the elevation."),
    RefusalKind("perp-limits-contradictory", "The limits of perps contradict each other", "perp_min_mm is over perp_max_mm.",
                "Give limits around the nominal perp."),
    RefusalKind("header-too-short", "A slip has no header", "Slip length less perp leaves no header.",
                "Choose a bond without headers, or check the slip length."),
    RefusalKind("reference-unknown", "A reference names nothing in the request", "A survey or sheet names an elevation that is not in the request.",
                "Use the id of an elevation of this request."),
    RefusalKind("size-limit", "The request is larger than the service takes", "Pieces, slips or fasteners would exceed the limit.",
                "Split the request by elevation or by movement joints."),
    RefusalKind("fractions-do-not-add-up", "Parts of a bridged layer do not fill it", "Fractions of a bridged layer differ from 1 by more than 1e-6.",
                "Make the fractions of the layer add up to 1."),
    RefusalKind("bridged-part-contradictory", "A bridged part has no resistance, or two", "A part gives neither or both of conductivity and resistance.",
                "Give conductivity_w_per_m_k or resistance_m2_k_per_w."),
    RefusalKind("ventilation-contradictory", "Ventilation and opening area contradict each other",
                "opening_mm2_per_m does not belong to the named ventilation.",
                "none is up to 500, slight from 500 to 1500, strong from 1500 mm2 per m."),
    RefusalKind("material-unknown", "A material is not in the table", "A layer names a material that /v1/materials does not list.",
                "Use a key of /v1/materials, or give a solid layer with its conductivity."),
    RefusalKind("insulation-layer-unclear", "The insulation layer is not named", "A correction needs the insulation layer and none, or more than one, could be meant.",
                "Give corrections.insulation_layer, counted from 0 at the inside."),
    RefusalKind("insulation-layer-wrong", "The insulation layer does not exist", "corrections.insulation_layer is outside the layers, or names a layer that is not counted.",
                "Count layers from 0 at the inside; layers beyond strong ventilation do not count."),
    RefusalKind("outside-validity", "An input is outside the range of a formula", "An input leaves the range for which a formula is valid.",
                "Change the input, or give the result from another source."),
    RefusalKind("layers-missing", "A build-up resists nothing", "The layers have no thermal resistance.",
                "Give at least one layer with resistance."),
    RefusalKind("strict-cautions", "Cautions refuse the request", "options.strict is true and the answer carries cautions.",
                "Resolve the cautions, or leave out options.strict."),
)


def finding(
    code: str,
    where: Where,
    *,
    value: float | None = None,
    limit: float | None = None,
    unit: str | None = None,
    advice: str | None = None,
) -> Finding:
    """One finding of the catalogue; ``advice`` replaces the catalogue's where the case allows a sharper one."""
    kind = FINDINGS[code]
    made: Finding = {"code": code, "level": kind.level, "where": where, "advice": advice or kind.advice}
    if value is not None:
        made["value"] = value
    if limit is not None:
        made["limit"] = limit
    if unit is not None:
        made["unit"] = unit
    return made


@dataclass(frozen=True)
class Fault:
    """One place of the request at fault: a JSON Pointer into it, a code and a sentence."""

    pointer: str
    code: str
    detail: str


@dataclass
class Refusal(Exception):
    """A request that cannot be answered: slug of the catalogue, a sentence, and the places at fault."""

    slug: str
    detail: str
    faults: tuple[Fault, ...] = field(default=())

    def __post_init__(self) -> None:
        """Fail at once on a slug that the catalogue does not hold."""
        super().__init__(self.slug, self.detail, self.faults)
        REFUSALS[self.slug]

    def __str__(self) -> str:
        """Slug and sentence."""
        return f"{self.slug}: {self.detail}"


def refuse(slug: str, pointer: str, detail: str) -> Refusal:
    """A refusal with one place at fault; the sentence names value, limit and what to do."""
    return Refusal(slug, detail, (Fault(pointer, slug, detail),))
