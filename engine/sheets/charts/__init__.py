"""Charts as SVG: one small kit for page and paper. Each chart is an element with a fixed id."""
