"""Need, rate and shares in; whole minutes, cycles and soaks out."""
