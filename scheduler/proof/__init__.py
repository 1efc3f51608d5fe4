"""What really happened: pots, weights and the meter, and what follows from them."""
