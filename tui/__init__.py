"""Every terminal face of lowquarter: the command line and the dashboard."""
