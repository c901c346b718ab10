"""The system that clads a wall: board, slip, joint, bond and what holds and fills them. Dimensions only, no products."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE, Clause
from storeyrod.units import WHOLE, count, quantity
from storeyrod.wall.adhesive_models import Adhesive
from storeyrod.wall.fastener_models import Fastener
from storeyrod.wall.movement import BackerRod, Movement

_BREAKAGE = Clause("builders' pocketbook", "breakage of bricks", "published")


class Board(Closed):
    """An insulated board: cover sizes, thickness, rib pitch and edges. It is never turned."""

    cover_length_mm: Annotated[float, quantity("mm", 100.0, 6000.0, "Length that one board covers.")]
    cover_height_mm: Annotated[float, quantity("mm", 50.0, 3000.0, "Height that one board covers.")]
    thickness_mm: Annotated[float, quantity("mm", 1.0, 500.0, "Thickness over the ribs' base.")]
    rib_pitch_mm: Annotated[
        float | None, quantity("mm", 20.0, 1000.0, "Distance of ribs, equal to a course; absent for a plain face.")
    ] = None
    flat_over_heads: Annotated[
        bool,
        Field(
            strict=True,
            description="true: boards over heads come without ribs, so that soldiers and voussoirs lie flat.",
        ),
    ] = False
    bottom_edge: Annotated[
        Literal["lap", "tongue", "square"],
        Field(description="Lower factory edge: lap or tongue has to meet a board below, or the base trim, uncut."),
    ] = "lap"
    top_edge: Annotated[
        Literal["lap", "tongue", "square"],
        Field(description="Upper factory edge: lap or tongue has to meet a board above uncut."),
    ] = "tongue"
    side_edges: Annotated[Literal["lap", "tongue", "square"], Field(description="Both side edges.")] = "square"
    mass_kg_per_m2: Annotated[
        float | None, quantity("kg_per_m2", 0.1, 200.0, "Mass of a square metre of board; give this or its density.")
    ] = None
    density_kg_per_m3: Annotated[
        float | None, quantity("kg_per_m3", 5.0, 3000.0, "Density of the board; give this or its mass.")
    ] = None
    reaction_to_fire: Annotated[
        Literal["A1", "A2", "B", "C", "D", "E", "F"] | None,
        Field(description="Class of the insulation; absent or under A2: it counts as combustible."),
    ] = None
    minimum_piece_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Least width of a board piece before it counts as a sliver."),
        Assumed("mm", HOUSE),
    ] = 150.0
    stagger_mm: Annotated[
        float, quantity("mm", 0.0, 3000.0, "Least distance of seams in neighbouring rows."), Assumed("mm", HOUSE)
    ] = 200.0
    kerf_mm: Annotated[float, quantity("mm", 0.0, 20.0, "Width lost in a cut."), Assumed("mm", HOUSE)] = 3.0
    seams: Annotated[
        Literal["staggered", "stacked"],
        Field(
            description="staggered: upright seams of neighbouring rows keep stagger_mm; stacked: they stand in line."
        ),
        Assumed("", COMMON_PRACTICE, "seams are staggered"),
    ] = "staggered"
    minimum_arm_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Least width or height of an arm of a piece that is cut round an opening."),
        Assumed("mm", HOUSE),
    ] = 100.0
    seam_clear_of_corner_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Least distance of an upright seam from the corner of an opening in its row."),
        Assumed("mm", HOUSE),
    ] = 150.0
    base_row_cut: Annotated[
        bool,
        Field(
            strict=True,
            description="true: the base trim takes a cut edge, and the lowest row may be cut at its foot where that spares a low top "
            "row; false: pieces on it keep their lower factory edge.",
        ),
    ] = False
    corner_strip_mm: Annotated[
        float | None,
        quantity(
            "mm",
            0.0,
            6000.0,
            "Width beside external corners, from the arris, in which pieces should be first cuts of whole boards; absent: not "
            "checked.",
        ),
    ] = None


class Slip(Closed):
    """A brick slip."""

    length_mm: Annotated[float, quantity("mm", 20.0, 1000.0, "Face length of a stretcher.")]
    height_mm: Annotated[float, quantity("mm", 10.0, 500.0, "Face height.")]
    thickness_mm: Annotated[float, quantity("mm", 3.0, 150.0, "Thickness.")]
    density_kg_per_m3: Annotated[
        float, quantity("kg_per_m3", 100.0, 5000.0, "Density of the slip."), Assumed("kg_per_m3", HOUSE)
    ] = 1900.0


class CornerSlip(Closed):
    """An L-shaped slip that shows a stretcher on one face and a header on the other."""

    stretcher_mm: Annotated[float | None, quantity("mm", 20.0, 1000.0, "Longer leg; absent: as long as a slip.")] = None
    return_mm: Annotated[
        float | None, quantity("mm", 10.0, 1000.0, "Shorter leg; absent: half a slip less half a perp.")
    ] = None


class FlushProfile(Closed):
    """A joint filled flush with the face."""

    kind: Literal["flush"]


class ConcaveProfile(Closed):
    """A joint tooled to a circular hollow."""

    kind: Literal["concave"]
    sagitta_mm: Annotated[float, quantity("mm", 0.1, 20.0, "Depth of the hollow at its middle.")]


Profile = Annotated[FlushProfile | ConcaveProfile, Field(discriminator="kind")]


class Joint(Closed):
    """Mortar joints between slips."""

    bed_mm: Annotated[float, quantity("mm", 0.0, 50.0, "Bed joint."), Assumed("mm", COMMON_PRACTICE)] = 10.0
    bed_min_mm: Annotated[
        float,
        quantity("mm", 0.0, 50.0, "Least bed when beds are adjusted to bring a level onto a course."),
        Assumed("mm", HOUSE),
    ] = 8.0
    bed_max_mm: Annotated[
        float, quantity("mm", 0.0, 50.0, "Widest bed when beds are adjusted."), Assumed("mm", HOUSE)
    ] = 12.0
    perp_mm: Annotated[float, quantity("mm", 0.0, 50.0, "Perp, the upright joint."), Assumed("mm", COMMON_PRACTICE)] = (
        10.0
    )
    perp_min_mm: Annotated[
        float, quantity("mm", 0.0, 50.0, "Least perp when perps are adjusted."), Assumed("mm", HOUSE)
    ] = 8.0
    perp_max_mm: Annotated[
        float, quantity("mm", 0.0, 50.0, "Widest perp when perps are adjusted."), Assumed("mm", HOUSE)
    ] = 12.0
    depth_mm: Annotated[float, quantity("mm", 1.0, 300.0, "Depth of pointing."), Assumed("mm", HOUSE)] = 15.0
    profile: Annotated[Profile, Assumed("", HOUSE, "flush when no profile is given")] = FlushProfile(kind="flush")


class MovementJoint(Closed):
    """Spacing and section of movement joints."""

    profile: Annotated[
        Literal[
            "common_practice",
            "adhered_thin_brick",
            "adhered_tiling",
            "full_thickness_uk",
            "en_1996_2",
            "clay_brick_us",
        ],
        Field(description="Document or practice whose spacing is kept; what the others ask is shown beside it."),
        Assumed("", COMMON_PRACTICE, "6 m or five boards"),
    ] = "common_practice"
    max_spacing_mm: Annotated[
        float | None, quantity("mm", 500.0, 50_000.0, "Longest bay; absent: that of the profile.")
    ] = None
    max_boards_count: Annotated[
        int | None, count(1, 100, "Longest bay in boards; absent: that of the profile, where it has one."), WHOLE
    ] = None
    max_area_m2: Annotated[
        float | None,
        quantity(
            "m2",
            0.5,
            10_000.0,
            "Largest area between movement joints, openings not deducted; absent: that of the profile, where it has one.",
        ),
    ] = None
    max_ratio: Annotated[
        float | None,
        quantity(
            "count",
            1.0,
            100.0,
            "Longer to shorter side of the area between movement joints; absent: that of the profile, where it has one.",
        ),
    ] = None
    change_of_height_mm: Annotated[
        float,
        quantity("mm", 1.0, 50_000.0, "Least step in the top of an elevation that is a change of height."),
        Assumed("mm", HOUSE),
    ] = 600.0
    width_mm: Annotated[
        float | None,
        quantity(
            "mm",
            1.0,
            60.0,
            "Width of the joint; absent: what movement asks for, or else 1.3 mm for each metre of the longest bay; up to whole "
            "millimetres and at least 6 mm.",
        ),
    ] = None
    movement: Annotated[Movement | None, Field(description="What moves; without it nothing of it is looked at.")] = None
    snap_mm: Annotated[
        float | None, quantity("mm", 25.0, 5000.0, "Grid of permitted positions; absent: half the slip module.")
    ] = None
    clear_of_opening_mm: Annotated[
        float, quantity("mm", 0.0, 2000.0, "Least distance of a joint from a jamb."), Assumed("mm", HOUSE)
    ] = 225.0
    at_storeys: Annotated[
        bool,
        Field(
            strict=True,
            description="Whether level joints run round the building in the bed joints nearest to the storey_levels_mm of its "
            "elevations, where a board at least stands below and a course above.",
        ),
    ] = False
    storey_width_mm: Annotated[
        float | None,
        quantity(
            "mm",
            1.0,
            60.0,
            "Width of level joints; absent: that of a bed. A wider one moves the courses beyond it, seen from the datum.",
        ),
    ] = None
    sealant_depth_mm: Annotated[
        float | None,
        quantity("mm", 1.0, 60.0, "Depth of sealant; absent: half the width, at least 6 mm and at most 13 mm."),
    ] = None
    sealant_section: Annotated[
        Literal["rectangle", "over_round_rod"],
        Field(
            description=(
                "What litres are reckoned by. rectangle: width by depth. over_round_rod: the depth stands at the middle of the "
                "joint, and the hollows beside the round rod are filled too."
            )
        ),
        Assumed("", COMMON_PRACTICE, "width by depth"),
    ] = "rectangle"
    backer_rod: Annotated[BackerRod, Assumed("", COMMON_PRACTICE, "closed cell when no rod is given")] = BackerRod(
        kind="closed_cell"
    )


class Mortar(Closed):
    """Pointing mortar."""

    density_kg_per_m3: Annotated[
        float,
        quantity("kg_per_m3", 100.0, 4000.0, "Dry mortar needed for one cubic metre of filled joint."),
        Assumed("kg_per_m3", HOUSE),
    ] = 1900.0
    hardened_density_kg_per_m3: Annotated[
        float | None,
        quantity(
            "kg_per_m3", 100.0, 4000.0, "Density of the hardened mortar, for its weight; absent: density_kg_per_m3."
        ),
    ] = None


class Trims(Closed):
    """Stock of trims."""

    base_stock_mm: Annotated[
        float, quantity("mm", 200.0, 12_000.0, "Length in which base trim is sold."), Assumed("mm", HOUSE)
    ] = 2500.0
    kerf_mm: Annotated[float, quantity("mm", 0.0, 20.0, "Width lost in cutting a trim."), Assumed("mm", HOUSE)] = 3.0


class Packs(Closed):
    """Contents of packs; what has none is ordered in its own unit."""

    board_count: Annotated[int | None, count(1, 1000, "Boards in a pack."), WHOLE] = None
    slip_count: Annotated[int | None, count(1, 100_000, "Straight slips in a pack."), WHOLE] = None
    header_slip_count: Annotated[int | None, count(1, 100_000, "Header slips in a pack."), WHOLE] = None
    corner_slip_count: Annotated[int | None, count(1, 100_000, "Corner slips in a pack."), WHOLE] = None
    fastener_count: Annotated[int | None, count(1, 100_000, "Fasteners in a pack."), WHOLE] = None
    adhesive_count: Annotated[int | None, count(1, 1000, "Cartridges of adhesive in a box."), WHOLE] = None
    mortar_kg: Annotated[float | None, quantity("kg", 0.1, 2000.0, "Mortar in a bag.")] = None
    sealant_ml: Annotated[float | None, quantity("ml", 10.0, 30_000.0, "Sealant in a cartridge or foil pack.")] = None
    backer_rod_m: Annotated[float | None, quantity("m", 0.5, 5000.0, "Backer rod in a roll, of each diameter.")] = None
    base_trim_count: Annotated[int | None, count(1, 1000, "Lengths of base trim in a pack."), WHOLE] = None


def _share(description: str) -> object:
    return quantity("fraction", 0.0, 1.0, f"{description}; a fraction of the need including cut waste, 0 to 1.")


class Allowances(Closed):
    """Shares added for breakage and loss; each multiplies the need including cut waste by one plus the share."""

    board: Annotated[float, _share("Damaged boards"), Assumed("fraction", HOUSE)] = 0.02
    slip: Annotated[float, _share("Broken slips"), Assumed("fraction", _BREAKAGE)] = 0.05
    corner_slip: Annotated[float, _share("Broken corner slips"), Assumed("fraction", HOUSE)] = 0.05
    fastener: Annotated[float, _share("Lost and overdriven fasteners"), Assumed("fraction", HOUSE)] = 0.03
    adhesive: Annotated[float, _share("Tube ends and squeeze-out"), Assumed("fraction", HOUSE)] = 0.10
    mortar: Annotated[float, _share("Mortar lost in mixing and cleaning"), Assumed("fraction", HOUSE)] = 0.10
    sealant: Annotated[float, _share("Sealant lost in nozzles and tooling"), Assumed("fraction", HOUSE)] = 0.10
    backer_rod: Annotated[float, _share("Ends of backer rod and splices"), Assumed("fraction", HOUSE)] = 0.05
    base_trim: Annotated[float, _share("Base trim spoilt in cutting"), Assumed("fraction", HOUSE)] = 0.05


class System(Closed):
    """Everything that is fixed to the wall, by dimension."""

    board: Board
    slip: Slip
    corner_slip: CornerSlip = CornerSlip()
    joint: Joint = Joint()
    bond: Annotated[
        Literal[
            "stretcher",
            "third_lap",
            "quarter_lap",
            "stack",
            "header",
            "english",
            "flemish",
            "english_garden_wall",
            "flemish_garden_wall",
        ],
        Field(description="Bond of the slips."),
        Assumed("", COMMON_PRACTICE, "half-lap stretcher bond"),
    ] = "stretcher"
    course_datum_mm: Annotated[
        float,
        quantity("mm", -500_000.0, 500_000.0, "Level of the foot of course 0, from which all courses are gauged."),
        Assumed("mm", HOUSE, "y = 0 is the foot of course 0"),
    ] = 0.0
    minimum_cut_mm: Annotated[
        float, quantity("mm", 0.0, 500.0, "Shortest cut slip before it counts as a sliver."), Assumed("mm", HOUSE)
    ] = 50.0
    minimum_rip_mm: Annotated[
        float, quantity("mm", 0.0, 500.0, "Least height of a ripped course."), Assumed("mm", HOUSE)
    ] = 32.5
    slip_kerf_mm: Annotated[float, quantity("mm", 0.0, 20.0, "Width lost in cutting a slip."), Assumed("mm", HOUSE)] = (
        3.0
    )
    adhesive: Adhesive = Adhesive()
    fastener: Fastener = Fastener()
    movement_joint: MovementJoint = MovementJoint()
    mortar: Mortar = Mortar()
    trims: Trims = Trims()
    packs: Packs = Packs()
    allowances: Allowances = Allowances()
