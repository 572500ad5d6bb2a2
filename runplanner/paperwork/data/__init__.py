"""Tables, workbooks and places for programs."""
