"""View models, templates and drawings: page, paper and the terminal's report are made from the same ones."""
