"""From a workshop's files to a static site whose pages compute in the reader's browser."""
