"""Two invented workshops, one metric and one in US units; nothing may be true of one only."""
