"""One module a screen; screens do not import each other."""
