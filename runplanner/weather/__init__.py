"""Hourly forecasts: what they say, which hours they shut and why, how sure they are.

A forecast is read from bytes in one of three open shapes and put on the campaign's clock.
Each hour is then judged for each kind of work; whatever shuts it is kept, in words.
Nothing here asks the network but ``fetch``, and that only when it is called.
"""
