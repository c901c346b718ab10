"""Exact layout of brick slips: straight, cut, corner, return and soldier, with joints that close the area."""
