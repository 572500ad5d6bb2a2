"""The words of the starter scenario."""

from typing import Final

YARDS_CSV: Final = """\
# One row for each yard. These five columns are enough; boxes are the full honey boxes
# of the whole yard. More columns if you know more: boxes_per_colony (in place of boxes),
# id, district, box, box_mass, box_spread, brood_boxes_off, clearing, clearing_else, stores,
# target, feeder, boards_on (boards lie there already: 2027-02-28 18:00, before the first day),
# hefted, hive_parts, frames_of_stores, frame_stores (in place of stores; without honey boxes),
# climate, winter_boxes, or months_brood, months_still (in place of target),
# fill and frames (in place of box_mass: "80 %", 9), ready_from, finish_by, spin_by, spin_by_hard,
# health, licence (of a yard at a standstill), feed_agreed, opens, closes,
# max_vehicle, max_width, four_wheel, trailer, last_stretch (off the road: 4 min), wet_boxes,
# strips, notes, phone.
# Quantities carry their unit in the cell (16 kg) or in the header, as box_mass [kg].
# The rows below are invented. Put your own in their place.
name,lat,lon,colonies,boxes
Invented gum paddock,-35.52,173.72,24,41
Invented river bend,-35.58,173.80,18,30
Invented hill gate,-35.47,173.90,30,52
"""

OUTFIT_TOML: Final = """\
# The outfit: what you drive, who works, when. Change the figures to your own.
# Quantities carry their unit in quotes ("2.1 t", "750 L", "1 h 30 min"); decimals have a dot.
# Lines that start with # are comments: take the # away to use one.
# `runplanner check` shows every default that was used, and where it comes from.

title = @TITLE@

# How many work; or their names, ["Ann", "Bob"]; or one [[people]] table for each, see below.
people = 2

[season]
first_day = 2027-03-01
last_day = 2027-03-14
# zone = "Pacific/Auckland"     # where the base lies when left out
# take_off_by = 2027-03-10      # honey off by; likewise strips_by and feed_by
# take_off_by_hard = false      # false: late is allowed and priced

[base]
# Home, feed store and honey house in one. Invented: put your own place here.
lat = -35.53
lon = 173.78
# opens = "05:00"
# closes = "22:00"
# last_stretch = "3 min"        # from the last mapped road to the door
# For separate places write [home], [feed_store] and [honey_house], each with lat and lon.
# Each may have hours of its own: trucks leave home once it opens and are back before it closes.

[[trucks]]
name = "Truck"
empty = "2.1 t"                 # without people, fuel and kit
max = "3.5 t"
deck_length = "3.1 m"           # inside
deck_width = "2.1 m"
# train_max = "6.0 t"           # truck and trailer together; only when it may pull one
# fuel = "60 kg"
# kit = "70 kg"                 # pump, covers, straps, smokers
# stack_height = "1.25 m"
# stack_boxes = 5
# seats = 3
# width = "2.2 m"
# four_wheel = false
# speed = "100 %"               # of the travel speed
# km_cost = 0.60
# day_cost = 40
# drivers = ["Ann"]
# out_days = [2027-03-05]
# [trucks.axles]                # below the truck's other lines; only when you know them
# front_empty = "1.2 t"
# rear_empty = "0.9 t"
# front_min = "0.8 t"
# front_max = "1.75 t"
# rear_max = "2.4 t"
# load_on_rear = "85 %"         # or, for an estimate of it, these two:
# wheelbase = "3.4 m"
# deck_starts = "1.1 m"         # from the front axle to the front of the deck

# [[trailers]]
# name = "Trailer"
# empty = "600 kg"
# max = "2.0 t"
# deck_length = "3.0 m"
# deck_width = "1.8 m"
# [trailers.nose]               # to estimate the weight on the coupling; measure from there
# empty = "40 kg"               # of the empty trailer's nose
# drawbar = "3.2 m"             # to the axle, or to the middle of two
# deck_starts = "1.6 m"         # to the front of the deck

# [[people]]                    # in place of the line people = 2
# name = "Ann"
# drives = true
# spins = true
# mixes = true
# away = [2027-03-06]

# [honey_house]
# boxes_per_hour = [5, 9, 12]   # by one person, two, three
# room = 400                    # full boxes it can hold
# waiting = 0                   # full boxes standing there already
# honey_water = "17.5 %"         # or refractive_index = 1.4928, at 20 degC
# spin_from = "08:00"
# spin_to = "20:00"

# [yards]                       # what holds for every yard whose row says nothing else
# box = "langstroth medium"     # or another of the catalogue, or one of [[boxes]]
# box_mass = "24.5 kg"          # a full one, with its honey
# clearing = "brush"            # brush | blower | boards | warm board
# clearing_else = "none"        # brush | blower: a way that a single visit may use instead
# wet_boxes = "stored wet"      # or returned: back above the cover boards to be licked dry
# target = "15 kg"              # winter stores of each colony; or by climate:
# climate = "temperate"         # mild | temperate | cold
# winter_boxes = 1              # brood boxes a colony winters in
# feeder = "10 L"

# [[boxes]]                     # a box the catalogue does not know
# name = "My box"
# length = "500 mm"
# width = "450 mm"
# height = "180 mm"
# empty = "5 kg"
# full = "20 kg"

# [[containers]]                # what syrup rides in: kind = "ibc" | "drum" | "can", or measures
# kind = "ibc"
# owned = 1

# [kit]
# boards = 40                   # clearer boards owned; needed when a yard is cleared by boards
# blocks = 300                  # fondant blocks in stock
# block = "2 kg"
# feeders = 120                 # fewer than colonies: fetched empty and used again

# [feed]
# recipe = "2:1"                # sugar to water by mass, or "66.7 %", or "1 kg + 500 ml"
# ready_made = false            # true: delivered, see ready
# ready = "0 L"                 # mixed or delivered before the first day
# uptake = "2 L/day"            # what one colony takes down
# mix_per_hour = "200 L/h"
# mix_per_day = "1000 L/day"
# mixing_tank = "300 L"         # the mixing sheet then tells sugar and water for each filling

# [strips]                      # by active substance: amitraz | formic acid | thymol | another
# substance = "amitraz"         # thymol: strips of 15 g, the first of two applications
# per_colony = 2                # or brood_boxes, frames_of_bees; else by each yard's winter_boxes
# twice = "no"                  # yes: as many again when the first come out, as thymol has it
# stock = 200                   # in hand or on order; also out_after, out_before, no_feed (days)

# [[strips_also]]               # another kind for some yards: their column strips names it
# name = "formic"               # without it the substance is its name; keys as in [strips], and
# substance = "formic acid"     # mass = "60 g" and price = 4.50 of one, where they differ
# Which substance where, and when to change it, is for the label, your vet and local law.

# [hours]
# rules = "cautious"            # eu | gb | nz | us | cautious: limits where none is typed
# start = "06:00"
# end = "20:00"
# duty_most = "11 h"
# driving_most = "9 h"

# [pace]                        # person-time for one colony, one box, one stop
# setup = "10 min"
# inspect = "6 min"
# box_brush = "5 min"
# feed = "2 min"
# feeder = "45 s"               # take one emptied feeder off

# [rules]
# blocks = 1                    # fondant blocks at take-off when syrup comes another day
# smallest_lot = 4              # fewest colonies worth a visit of their own
# feed_late_from = "16:00"      # feed from then on tempts no robbers; see prices.feed_early
# wet_from = "16:00"            # wet boxes go up no sooner in the day than this
# wet_least_days = 4            # they stand so long at least; strips and syrup wait
# wet_best_days = 5             # longer is priced as boards_long is

# [safety]                      # kept in hand; `runplanner rehearse --settings` helps to choose
# load = "95 %"                 # boxes count as heavy as 95 of 100 are at most; 50 % as guessed
# slack = "0 min"               # trucks are planned home so long before the day's end
# spare_days = 0                # hard last days, each yard's too, are planned so much sooner

# [prices]
# currency = "NZD"
# hour = 30
# unsure = 2                    # a colony whose visit weather spoils, by the forecast's doubt
# feed_early = 0.20             # a colony fed earlier in the day than rules.feed_late_from
# worth_take_off = 60           # a colony; dearer take-off may be left, and says so
# worth_feed = 4                # a kilogram of winter stores; dearer feed may be left
# worth_strips = 20             # a colony; dearer strips may be left

# [travel]
# detour = 1.3                  # road for each straight kilometre
# speed = "50 km/h"
# Real roads instead: roads = "region.osm.pbf" here names an OpenStreetMap extract (README).
# height = "3.1 m"              # of the highest truck, for low bridges on real roads
# Timed legs go into travel.csv with the columns from,to,minutes,km ("no road" for none).

# [[moves]]                     # hives that are moved; the truck stays home that day
# yard = "Invented hill gate"
# day = 2027-03-06
# lat = -35.49
# lon = 173.88
# last_stretch = "4 min"        # off the road there
# truck = "Truck"

# [[areas]]                     # a restricted area: nothing leaves yards inside
# name = "Restricted area"
# lat = -35.9
# lon = 173.8
# radius = "3 km"               # or corners = [[-35.9, 173.8], [-35.9, 173.9], [-35.8, 173.9]]

# Weather goes into weather.csv with the columns
# area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note
# all,open,fit,2027-03-01,2027-03-14,10:00,17:00,,,            hours fit for opening hives
# all,open,shut,2027-03-04,2027-03-04,,,,,rain                 all day shut
# all,settle,shut,2027-03-05,2027-03-05,16:00,06:00,,,thunder  bees must not be caught outside
# all,temperature,,2027-03-01,2027-03-14,,,11 degC,23 degC,    air, for hives, syrup and strips
# A day without a row counts as fit all day: type shut for days that are not; `check` names those
# that no row covers. A day whose typed high is below open_least (13 degC) is shut for opening
# hives, unless a row says fit. An hourly forecast goes into forecast.csv with the columns
# time,temp_c,rain_mm,wind_ms, or into forecast.json as met.no or Open-Meteo give it; typed
# windows override it. More than one, for a district or a yard and with an address to fetch it
# from, under [[forecasts]]: see README.
# [weather]
# open_least = "13 degC"
# syrup_least = "10 degC"
# open_rain = "0.2 mm/h"          # more shuts an hour; likewise feed_ and settle_, and _wind,
# open_thunder = "30 %"           # _gust; all of them are read only with a forecast
# beyond = "fair"                 # or "shut": hours that no forecast reaches
"""
