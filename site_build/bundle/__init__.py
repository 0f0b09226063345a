"""Making the files that let the engine run in a browser: fetched, trimmed, compiled and packed."""
