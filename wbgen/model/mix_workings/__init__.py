"""The tables of the sheet Mix workings, a module each."""
