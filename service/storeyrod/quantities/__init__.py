"""What is bought: need, cut waste, allowance, order and packs, per elevation and for all of them."""
