"""Pages written from the catalogue and the rules: each function gives finished Markdown by path."""
