"""Pure functions of engineering: SI in and out, a source for each. Knows nothing of catalogues."""
