"""Cutting and packing instances of the literature, as data."""

# Paper rolls of 5 600 mm: width and rolls wanted (worked example of an encyclopaedia's article on the cutting stock problem).
PAPER_ROLLS = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
    2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip

# Rolls of 100 in (P. C. Gilmore, R. E. Gomory, Operations Research 9, 1961, as a model library prints it).
TRIM_LOSS = {45: 97, 36: 610, 31: 395, 14: 211}

# N1C1W1_A: bins of 100 (A. Scholl, R. Klein, C. Juergens, BISON, Computers and Operations Research 24, 1997).
N1C1W1_A = [
    99, 99, 96, 96, 92, 92, 91, 88, 87, 86, 85, 76, 74, 72, 69, 67, 67, 62, 61, 56, 52, 51, 49, 46, 44,
    42, 40, 40, 33, 33, 30, 30, 29, 28, 28, 27, 25, 24, 23, 22, 21, 20, 17, 14, 13, 11, 10, 7, 7, 3,
]  # fmt: skip

# t60_00: bins of 1 000, three pieces to each, no waste; lengths times ten (E. Falkenauer, Journal of Heuristics 2, 1996).
T60_00 = [
    366, 268, 366, 430, 263, 307, 414, 287, 299, 495, 251, 254, 474, 252, 274, 370, 269, 361, 473, 252,
    275, 472, 259, 269, 444, 258, 298, 439, 273, 288, 445, 272, 283, 419, 261, 320, 363, 271, 366, 355,
    273, 372, 466, 262, 272, 357, 292, 351, 395, 255, 350, 350, 303, 347, 450, 252, 298, 410, 275, 315,
]  # fmt: skip

# gcut1: pieces for plates of 250 x 250, worth their area (J. E. Beasley, Journal of the Operational Research Society 36, 1985).
GCUT1 = [
    (167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148), (87, 141), (69, 165),
]  # fmt: skip

# cgcut1: pieces for a plate of 15 x 10, with their values (N. Christofides, C. Whitlock, Operations Research 25, 1977).
CGCUT1 = {(8, 4): 66, (3, 7): 35, (8, 2): 24, (3, 4): 17, (3, 3): 11, (3, 2): 8, (2, 1): 2}
