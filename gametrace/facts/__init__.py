"""What nature, the trade and the law say: dated data with a source on every line. It decides nothing."""
