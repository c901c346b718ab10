"""Movement joints: where they stand, how wide they are, and the bays between them."""
