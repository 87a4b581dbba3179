"""The commented build file that a new build starts from."""

STARTER = """\
# A build file: what you choose. Everything else follows from it.
# Lengths are text with a unit: "38 in", "47 5/8 in", "3 ft 2 in", "1400 mm". Lines starting with # are off.

[build]
name = "my-bed"                 # small letters, figures and hyphens
title = "My bed"
channel = ""
episode = ""
units = "in"                    # "in" or "mm"

[mattress]
size = "twin"                   # a name ("UK double"), or leave it out and measure:
# width = "38 in"               # measured sizes win over the name
# length = "75 in"
thickness = "8 in"
# gap_limit = "2 3/4 in"        # largest gap between slats that the mattress maker allows
# gap_limit_from = "the mattress maker's terms"

[clearance]                     # room for the mattress
side = "3/8 in"                 # each side
end = "3/8 in"                  # each end

[frame]
rail = "2x6"
corners = "side rails run past" # or "end rails cap"

[support]
kind = "cleats"                 # inside the side rails; or "runners", flat under them
lumber = "2x2"
recess = "1 1/2 in"             # rail top above slat top (cleats only)
# end_play = "1/8 in"           # cleat shorter than the opening, each end

[centre]
lines = 0                       # 0 to 3 lines under the middle of the slats
# kind = "beam"                 # on edge; or "flat"
# lumber = "2x4"
# ends = "leg"                  # or "hanger", "block"
# legs = 3                      # per line

[slats]
lumber = "1x4"
carries = "mattress"            # or "box spring"
gap = "2 1/4 in"                # at most; decides how many slats
edge = "flush"                  # or "equal", or "fixed" with edge_gap = "1 in"
play = "1/8 in"                 # slat end to rail, each end

[legs]
kind = "post"                   # or "doubled", "corner L", "tube"
lumber = "4x4"
place = "under"                 # under the cleat or runner; or "inside" the corner
per_side = 3
setback = "4 in"                # end of the bed to the corner leg
# omit = ["L2", "R2"]           # legs left out
# leveller = "3/4 in"

[heights]                       # give exactly one
underside = "11 1/2 in"         # floor to the underside of the rail
# sleeping = "16 in"            # floor to slat top
# leg = "14 in"

# Actual sizes come from the table of dressed sizes; say so where yours differ. Prices are the shop's.
[[lumber.2x6.stock]]
length = "8 ft"
price = "8.10"

[[lumber.2x2.stock]]
length = "8 ft"
price = "3.40"

[[lumber.1x4.stock]]
length = "8 ft"
price = "6.60"

[[lumber.1x4.stock]]
length = "10 ft"
price = "8.30"

[[lumber.4x4.stock]]
length = "8 ft"
price = "16.90"

[wood]
species = "Spruce-Pine-Fir"     # as stamped
grade = "No.2"

[saw]
kerf = "1/8 in"
trim = "1/4 in"                 # all that is lost at a board's ends

[screws.slat]                   # also corner, cleat, runner, leg, ply, line, flange; what is left out is chosen
gauge = "#8"

[screws.leg]
kind = "carriage bolt"
diameter = "3/8 in"
count = 2

[load]
people = 2
person = "275 lb"

[finish]
kind = "oil"
coats = 2
recoat = "4 h"
grits = [120, 180]

[names]                         # your own words for the parts, as you say them on camera
# cleat = ["cleat", "ledge"]
"""
