"""Loadstead: checks whether a camper somebody wishes for can be built."""
