"""Labels and small paper: what is printed, on which stock, by which printer, and how it will look."""
