"""Which kind of deer is it? A key by drawings, look-alikes side by side, and the right words."""
