"""Ready details: each draws rectangles, boundaries and flanks from a build-up and a few parameters."""
