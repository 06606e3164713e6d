"""The tables of the sheet Budget, a module each."""
