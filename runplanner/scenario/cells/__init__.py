"""CSV, XLSX and TOML with the row or line of every cell, and fields read from them."""
