"""The commands for the terminal: the whole job without a window. It words results and decides nothing."""
