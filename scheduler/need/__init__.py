"""Weather and plants in; the depth of water the bed needs out."""
