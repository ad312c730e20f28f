package golfer

import (
	"math"
	"math/rand/v2"
)

// A Course is eighteen invented holes with their grass and their weather.
type Course struct {
	Name, Tees  string
	Rating      float64
	Slope       int
	Rough       Lie     // the grass beside the fairways and round the greens
	Beyond      Lie     // what grows past the rough
	RoughYd     float64 // from the edge of the fairway to what lies beyond
	WindMph     float64 // of an average day; 0 for a course without wind
	WindFromDeg float64 // where it mostly comes from
	Holes       []Hole
}

// A Hole is straight: the tee at the origin of its coordinates, the middle of the green at (0, LengthYd).
type Hole struct {
	Number, Par  int
	LengthYd     float64
	StrokeIndex  int
	FairwayYd    float64 // width
	GreenDepthYd float64
	GreenWidthYd float64
	ElevationYd  float64 // green above tee
	BearingDeg   float64 // the direction of play
	GreenBunkers Sides
	Hazards      []Hazard
}

// Sides of a green.
type Sides uint8

// The sides a bunker can guard.
const (
	Left Sides = 1 << iota
	Right
	Front
	Back
)

// A Hazard is a rectangle on the hole: sand, or somewhere a ball costs a stroke.
type Hazard struct {
	Kind                   Ground
	MinX, MaxX, MinY, MaxY float64
}

// Ground is what a hazard is made of.
type Ground uint8

// Kinds of hazard.
const (
	Sand Ground = iota
	PenaltyArea
	OutOfBounds
)

func (h Hazard) holds(p Point) bool {
	return p.X >= h.MinX && p.X <= h.MaxX && p.Y >= h.MinY && p.Y <= h.MaxY
}

const (
	fringeYd   = 2.5
	firstCutYd = 2.0
	bunkerYd   = 9.0  // how far a greenside bunker reaches out from the fringe
	greenEndYd = 32.0 // rough grows at least so far round a green
	apronYd    = 18.0 // short grass before the green of a par 3
)

// offGreenYd is the distance from the edge of the green, negative on it, along the ray from its middle.
func (h *Hole) offGreenYd(p Point) float64 {
	dx, dy := p.X, p.Y-h.LengthYd
	radius := math.Hypot(dx, dy)
	across, along := dx/(h.GreenWidthYd/2), dy/(h.GreenDepthYd/2)
	scale := math.Hypot(across, along)
	if scale == 0 {
		return -math.Min(h.GreenWidthYd, h.GreenDepthYd) / 2
	}
	return radius - radius/scale
}

// penaltyAt is the hazard that costs a stroke at a place, if there is one.
func (h *Hole) penaltyAt(p Point) *Hazard {
	for i := range h.Hazards {
		if h.Hazards[i].Kind != Sand && h.Hazards[i].holds(p) {
			return &h.Hazards[i]
		}
	}
	return nil
}

// lieAt is how a ball comes to lie at a place that costs no stroke.
func (c *Course) lieAt(h *Hole, p Point, rng *rand.Rand) Lie {
	off := h.offGreenYd(p)
	switch {
	case off <= 0:
		return Green
	case off <= fringeYd:
		return Fringe
	case off <= fringeYd+bunkerYd && h.bunkerBeside(p):
		if rng.Float64() < 0.12 {
			return Plugged
		}
		return Bunker
	}
	for i := range h.Hazards {
		if h.Hazards[i].Kind == Sand && h.Hazards[i].holds(p) {
			return FairwayBunker
		}
	}
	aside := h.asideYd(p)
	if p.Y >= h.fairwayFromYd() && p.Y <= h.LengthYd {
		switch {
		case aside <= 0:
			return Fairway
		case aside <= firstCutYd:
			return FirstCut
		}
	}
	if aside > c.RoughYd && off > greenEndYd {
		switch luck := rng.Float64(); {
		case luck < 0.6:
			return c.Beyond
		case luck < 0.8:
			return DeepRough
		case c.Beyond == Trees:
			return PineStraw
		}
		return c.Rough
	}
	if rng.Float64() < 0.06 {
		return DeepRough
	}
	return c.Rough
}

// bunkerBeside tells whether a place off the green looks at it from a side that has a bunker.
func (h *Hole) bunkerBeside(p Point) bool {
	dx, dy := p.X, p.Y-h.LengthYd
	switch {
	case math.Abs(dx) > 1.3*math.Abs(dy):
		return dx < 0 && h.GreenBunkers&Left != 0 || dx > 0 && h.GreenBunkers&Right != 0
	case math.Abs(dy) > 1.3*math.Abs(dx):
		return dy < 0 && h.GreenBunkers&Front != 0 || dy > 0 && h.GreenBunkers&Back != 0
	}
	return false
}

// asideYd is how far a place lies outside the edge of the short grass, which is as wide as the
// green before that of a par 3.
func (h *Hole) asideYd(p Point) float64 {
	width := h.FairwayYd
	if h.Par == 3 {
		width = h.GreenWidthYd
	}
	return math.Abs(p.X) - width/2
}

// fairwayFromYd is where the short grass begins.
func (h *Hole) fairwayFromYd() float64 {
	if h.Par == 3 {
		return h.LengthYd - h.GreenDepthYd/2 - apronYd
	}
	return 130
}

// teeLineX is where a tee shot is aimed: a few yards from the middle, away from trouble on one side.
func (h *Hole) teeLineX() float64 {
	x := 0.0
	for _, hazard := range h.Hazards {
		switch {
		case hazard.Kind == Sand || hazard.MaxY < 200 || hazard.MinY > 300:
		case hazard.MinX > 0:
			x -= 4
		case hazard.MaxX < 0:
			x += 4
		}
	}
	return x
}
