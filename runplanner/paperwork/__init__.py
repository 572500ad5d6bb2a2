"""The papers: what people print, read on a phone or open in a spreadsheet."""
