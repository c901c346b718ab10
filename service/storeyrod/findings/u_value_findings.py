"""Findings on U-values: rows of the catalogue."""

from typing import Final

from storeyrod.findings.kinds import FindingKind

# fmt: off
U_VALUE_FINDINGS: Final = (
    FindingKind("fastener-heat-unknown", "caution", "Fasteners exist, but their heat loss is not declared.",
                "fastener.chi_w_per_k is absent, or corrections.fasteners is undeclared.",
                "Give the declared value; until then the U-value with fasteners is a range."),
    FindingKind("fastener-conducts-little", "info", "Fasteners conduct too little for a correction.",
                "conductivity_w_per_m_k of calculated fasteners is under 1 W/(m.K).",
                "None needed; their correction is zero."),
    FindingKind("combined-method-limit", "caution", "The two limits of resistance lie far apart.",
                "Upper limit over lower limit is more than 1.5.",
                "The combined method does not hold; calculate the section numerically."),
    FindingKind("correction-ignored", "info", "Corrections below 3 % of U were left out.",
                "The corrections add up to less than 3 % of the uncorrected U-value.",
                "None needed; the corrected value is given beside."),
    FindingKind("beyond-ventilated-layer", "info", "Layers outside a well-ventilated air layer were not counted.",
                "An air layer is strongly ventilated.",
                "None needed; its outer surface counts as an internal one."),
    FindingKind("void-wide", "info", "A void is so wide that it was taken as a wide air layer.",
                "void_width_mm is ten times thickness_mm or more.",
                "None needed; leave void_width_mm out."),
    FindingKind("metal-bridge", "caution", "Insulation is bridged by metal.",
                "A part of a bridged layer conducts over 100 times as well as another part, or 10 W/(m.K) and more beside one under "
                "1 W/(m.K): limits of this service.",
                "The combined method does not hold for metal; use a fastener correction or a numerical calculation."),
    FindingKind("band-beyond-method", "caution", "The combined method does not hold all over the tolerances.",
                "At an end of the band, or in a draw, the upper limit of resistance is over 1.5 times the lower.",
                "Ask for smaller tolerances, or calculate the section numerically; U-values there are uncertain."),
    FindingKind("correction-rule-crossed", "caution", "Inside the tolerances corrections come to the other side of 3 % of U.",
                "At an end of the band, or in a draw, corrections left out of the answer reach 3 % of the uncorrected U-value, or those kept "
                "stay under it.",
                "Ask again with inputs at their ends: the band keeps or leaves out corrections as the answer does."),
    FindingKind("held-thickness-beyond-method", "caution", "A thickness held was passed over: the combined method does not hold at it.",
                "At one of target.thicknesses_held_mm that would reach the target the limits of resistance are over 1.5 apart, or a part is "
                "taken for metal.",
                "Calculate the section of that thickness numerically."),
    FindingKind("held-thickness-short", "caution", "No thickness that is held reaches the U-value asked for.",
                "The U-value at every one of target.thicknesses_held_mm is over target.u_value_w_per_m2_k.",
                "Hold a thicker layer, lay two, or choose one that insulates better."),
)
# fmt: on
"""In the order of the catalogue."""
