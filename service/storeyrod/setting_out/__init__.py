"""Setting out: finished faces, datum and gauge, perps and bond round the building, steps of the base."""
