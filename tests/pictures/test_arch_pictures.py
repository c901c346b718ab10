"""Arches as pictures: a reviewer sees rings, joints and the courses cut to them. Read against the figures beside them, then kept."""

from arch_pictures import drawn
from slip_pictures import picture


def wall(width, height, opening, rise, springing=75, **voussoirs):
    """A wall with one arch in its middle, sill at the foot."""
    hole = {
        "id": "arch", "kind": "arch", "x_mm": (width - opening) / 2, "width_mm": opening, "sill_mm": 0,
        "springing_mm": springing, "rise_mm": rise, "voussoirs": voussoirs,
    }  # fmt: skip
    return {"width_mm": width, "height_mm": height, "openings": [hole]}


def test_g24_nineteen_wedges_over_a_semicircle_have_equal_joints() -> None:
    """19 is the least odd number whose extrados, pi x 445, takes slips of 65 with joints of 10."""
    assert drawn(wall(1240, 600, 685, 342.5)) == picture("""
        ccccc SSSSSSSSSS SSSSSSSSSSScccccccccccSSSSSSSSSSS SSSSSSSSSS
        ccccc SSSSSSSSSS SSSSSSSSSSScccccccccccSSSSSSSSSSS SSSSSSSSSS
                                     vvvv
        SSSSSSSSSSSccccccccccc  v VVV vv VVV v  cccccSSSSSSSSSSScccccc
        SSSSSSSSSSSccccccccc V vvvVVV vv VVVvvv V cccSSSSSSSSSSScccccc
                           VVVVvvv VV vv VV vvvVVVV
        ccccc cccccccccc vv VVV vv VV vv VV vv VVV vv cccc SSSSSSSSSS
        ccccc cccccccccV vvv VVVv............vVVV vvv Vccc SSSSSSSSSS
                      VVV vvv .................. vvv VVV
        SSSSSSSSSSScc VVVV v......................v VVVV ccccccccccccc
        SSSSSSSSSSScvvv VVV........................VVV vvvcccccccccccc
                    vvvv V..........................V vvvv
        ccccc cccc V  vvv............................vvv  V ccccccccc
        ccccc ccccVVVVV .............................. VVVVVccccccccc
                   VVVV................................VVVV
        ccccccccc vvv V................................V vvv ccccccccc
        cccccccccvvvvvv................................vvvvvvccccccccc
                    vv..................................vv
        ccccc cc VVVVV..................................VVVVV ccccccc
        ccccc cc VVVVV..................................VVVVV ccccccc
                      ..................................
        SSSSSSSSSSSccc..................................cccccccccccccc
        SSSSSSSSSSSccc..................................cccccccccccccc
    """)


def test_g24_fifteen_square_headers_over_it_gape_at_the_extrados() -> None:
    """Joints of 6.7 at the intrados and 28.2 at the extrados, allowed here by a limit of 30."""
    assert drawn(wall(1240, 600, 685, 342.5, cut="square", joint_max_mm=30)) == picture("""
        ccccc SSSSSSSSSS SSSSSSSSSSScccccccccccSSSSSSSSSSS SSSSSSSSSS
        ccccc SSSSSSSSSS SSSSSSSSSSScccccccccccSSSSSSSSSSS SSSSSSSSSS
                                     vvvv
        SSSSSSSSSSSccccccccccc   VVV vvvv VVV   cccccSSSSSSSSSSScccccc
        SSSSSSSSSSSccccccccc vvv VVV vvvv VVV vvv cccSSSSSSSSSSScccccc
                           V vvvvVVVVvvvvVVVVvvvv V
        ccccc cccccccccc VVV  vvv VVVvvvvVVV vvv  VVV cccc SSSSSSSSSS
        ccccc cccccccccv VVVV vvv............vvv VVVV vccc SSSSSSSSSS
                      vvv VVVV..................VVVV vvv
        SSSSSSSSSSScc vvvv V......................V vvvv ccccccccccccc
        SSSSSSSSSSScV  vvvv........................vvvv  Vcccccccccccc
                    VVV vv..........................vv VVV
        ccccc cccc VVVVVV............................VVVVVV ccccccccc
        ccccc cccc   VVV..............................VVV   ccccccccc
                  vvvv ................................ vvvv
        ccccccccc vvvvv................................vvvvv ccccccccc
        ccccccccc  vvvv................................vvvv  ccccccccc
                 VVVV .................................. VVVV
        ccccc cc VVVVV..................................VVVVV ccccccc
        ccccc cc VVVVV..................................VVVVV ccccccc
                      ..................................
        SSSSSSSSSSSccc..................................cccccccccccccc
        SSSSSSSSSSSccc..................................cccccccccccccc
    """)


def test_g24_two_rings_over_a_segmental_arch_spring_from_skewbacks() -> None:
    """Both ends point to the centre, 998.5 below the springing: atan(998.5 / 567.5) is 60.4 degrees from level."""
    assert drawn(wall(1690, 600, 1135, 150, 150, rings_count=2)) == picture("""
        ccccc SSSSSSSSSS SSSSSSSSSSSSSSSSSSSSSSccccccccccc SSSSSSSSSS SSSSSSSSSSSSSSSSSSSSSS
        ccccc SSSSSSSSSS SSSSSSSSSSSSSSSSSSSSSSccccccccccc SSSSSSSSSS SSSSSSSSSSSSSSSSSSSSSS

        SSSSSSSSSSSccccccccccccccccc   VVvvvvVVV vvvVVV vvv VV   ccccccccccSSSSSSSSSSS ccccc
        SSSSSSSSSSScccccccccccc  Vvvv VVVvvvvVVV vvvVVV vvv VVVvvv V ccccccSSSSSSSSSSS ccccc
                             v VVVvvvvVVV vvvVVV vvvVVV vvvVVV vvv VVVvv
        ccccc cccccccccc VVvvv VVV vvvVVV vvvVVV vvvVVV vvvVVV vvvVVVVvvv V  ccccccccccccccc
        ccccc ccccccc v VVV vvvVVV vvv V   vvVVV vvvVVV v    VvvvvVVV vvvVVVVv ccccccccccccc
                    vvvvVVV vvv VV  vv VVVvvv VV vvvVVVvvv VVVvv  VVVvvv VVV vvv
        cccccccc VVV vvv VVVvv vVVV vv VVVvvv VV vvvVVVvvv VV vvvVVV   v VVVvvvvVVV cc ccccc
        cccccccccVVVVvvvvVV  vvvVVV vvvVVV vv VV vvvVVVvvvVVV vvvVVV vvvV V vvv VVVccc ccccc
                  VVV vv  VVVvvv VVVvvvVVV vv...........vvVVV vv VVVvvv VVVv v VVV
        ccccc cccc VV  vvvVVV vvvVVV ..........................vVVV vvvVVV vvv VVVcccccccccc
        ccccc ccccc VVVvvv VVVvvv...................................vv VVVvvv VVVccccccccccc
                    VVV vvvVV..........................................VV vvvVVV
        SSSSSSSSSSSccVVV v................................................vv VVVcccccc ccccc
        SSSSSSSSSSScc VV.....................................................VVccccccc ccccc
                      .........................................................
        ccccc cccccccc.........................................................ccSSSSSSSSSSS
        ccccc cccccccc.........................................................ccSSSSSSSSSSS
                      .........................................................
        SSSSSSSSSSSccc.........................................................ccccccc ccccc
        SSSSSSSSSSSccc.........................................................ccccccc ccccc
    """)


def test_g24_a_wall_that_ends_in_the_ring_clips_its_voussoirs() -> None:
    """The ring ends at 75 + 445 = 520, the wall at 475."""
    assert drawn(wall(1240, 475, 685, 342.5, cut="taper")) == picture("""
        cccccccccccccccccccc V vvvVVV vv VVVvvv V cccccccccccccccccccc
                           VVVVvvv VV vv VV vvvVVVV
        ccccc cccccccccc vv VVV vv VV vv VV vv VVV vv cccc SSSSSSSSSS
        ccccc cccccccccV vvv VVVv............vVVV vvv Vccc SSSSSSSSSS
                      VVV vvv .................. vvv VVV
        SSSSSSSSSSScc VVVV v......................v VVVV ccccccccccccc
        SSSSSSSSSSScvvv VVV........................VVV vvvcccccccccccc
                    vvvv V..........................V vvvv
        ccccc cccc V  vvv............................vvv  V ccccccccc
        ccccc ccccVVVVV .............................. VVVVVccccccccc
                   VVVV................................VVVV
        ccccccccc vvv V................................V vvv ccccccccc
        cccccccccvvvvvv................................vvvvvvccccccccc
                    vv..................................vv
        ccccc cc VVVVV..................................VVVVV ccccccc
        ccccc cc VVVVV..................................VVVVV ccccccc
                      ..................................
        SSSSSSSSSSSccc..................................cccccccccccccc
        SSSSSSSSSSSccc..................................cccccccccccccc
    """)
