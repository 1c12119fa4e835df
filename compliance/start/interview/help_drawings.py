"""Small drawings of text that explain a question to whoever asks for help."""

SHAPE_PICTURES = """\
Seen from above, north up. All sizes are from outside to outside; center lines are worked out.
   rectangle    round     L          U            round-end
    ______      .---.     __         __    __     ______
   |      |    /     \\   |  |       |  |  |  |   |      \\
   |      |    \\     /   |  |____   |  |__|  |   |       )
   |______|     '---'    |_______|  |________|   |______/
lines takes any outline of straight walls and arcs, from corner to corner on one line of text."""
RECTANGLE_PICTURE = """\
The other outside size, from south to north.
    _____________
   |             |
   |             |  width
   |_____________|
       length"""
HEIGHT_PICTURE = """\
The earth alone: no stem wall below it, no beam above it.
    =======  bond beam or roof
    |     |  <
    | cob |     height
    |     |  <
    [stone]  stem wall"""
THICKNESS_PICTURE = """\
Through the earth, without plaster. A wall that is thicker at the base: write the base here; the top is written later in
walls.yaml, as thickness_base and thickness_top.
    plaster :|       |: plaster
            :|  cob  |:
             <------->"""
MIX_PICTURE = """\
In buckets, as they are thrown on the tarp: two buckets of clay soil, three of sand and one of straw are
   2 clay soil, 3 sand, 1 straw
A name that ends in sand, gravel or straw is taken for that; the kind of straw may stand before it, as in rye straw."""
ROOF_PICTURE = """\
The span is clear, from the inside of one wall to the inside of the other.
        /\\
       /  \\        framed: rafters, cut on site       trussed: made trusses
      /____\\       reciprocal: a ring of poles that carry one another
     |<---->|      living: with planted earth on it   vault: of earth or brick
      span         Without a span write the kind alone, such as living."""


PATH_PICTURE = """\
Seen from above, north up: a wall from each corner to the next, the last one back to the first unless you end with open.
Corners lie on the centerlines: half the thickness inside the outer faces.
    0,14  ________ 20,14
         |        \\
         |         )  27,7: the arc passes through it
         |________/
    0,0            20,0
through stands before the point of the arc, and the corner at which it ends follows."""
