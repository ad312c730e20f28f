package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// dotStack places every value as a dot of its own: values that fall on one
// place stand beside each other (Wilkinson 1999, Dot plots, The American
// Statistician 53(3)). No dot is moved by more than half its diameter.
type dotStack struct {
	places  []float64 // the value a stack stands at, ascending
	heights []int     // dots in it
}

// stacked piles up the values that are not beyond the end of the scale. Values
// must be sorted.
func stacked(values []float64, s scale, diameter vg.Length) dotStack {
	width := s.valueOf(diameter)
	var stack dotStack
	last := math.MinInt
	for _, v := range values {
		if v > s.to {
			break
		}
		bin := int(math.Round(v / width))
		if bin != last {
			stack.places = append(stack.places, min(float64(bin)*width, s.to))
			stack.heights = append(stack.heights, 0)
			last = bin
		}
		stack.heights[len(stack.heights)-1]++
	}
	return stack
}

func (d dotStack) highest() int {
	if len(d.heights) == 0 {
		return 0
	}
	return slices.Max(d.heights)
}

// step is the distance between dots of a stack: their diameter, or less where
// the highest stack would not fit into the room.
func (d dotStack) step(diameter, room vg.Length) vg.Length {
	if n := d.highest(); n > 1 {
		return min(diameter, (room-diameter)/vg.Length(n-1))
	}
	return diameter
}

// Dots come in these diameters. A group of more than mostDots, or whose dots
// would cover each other by more than half, has too many for dots; its density
// is drawn, as then is that of every group of at least fewestForHill.
var dotDiameters = []vg.Length{4.5, 4, 3.6, 3.3, 3, 2.7, 2.4}

const (
	mostDots      = 300
	fewestForHill = 30
)

func tooManyForDots(values []float64, s scale, room vg.Length) bool {
	smallest := dotDiameters[len(dotDiameters)-1]
	return len(values) > mostDots || stacked(values, s, smallest).step(smallest, room) < smallest/2
}

// dotDiameter is the largest diameter, up to a quarter of the room, at which no
// stack of any group has to be pushed together by more than a fifth, and else
// the smallest.
func dotDiameter(groups [][]float64, s scale, room vg.Length) vg.Length {
	for _, diameter := range dotDiameters {
		if diameter <= room/4 && !slices.ContainsFunc(groups, func(values []float64) bool {
			return stacked(values, s, diameter).step(diameter, room) < 0.8*diameter
		}) {
			return diameter
		}
	}
	return dotDiameters[len(dotDiameters)-1]
}
