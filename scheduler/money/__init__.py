"""A season in; what uneven water costs, and whether better sprinklers pay, out."""
