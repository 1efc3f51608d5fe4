"""What really happened: the meter against the plan, before and after, what is due."""
