"""Each act of the user and each question asked, as functions a script can call. Draws and prints nothing."""
