"""Trips: what one truck can do in one day, by the clock and by the load."""
