"""To-scale drawings as SVG: one unit of the drawing is one centimetre of the vehicle."""
