package baseline

import (
	"fmt"
	"math"
)

// A curve is a table of values at rising distances, straight in between.
type curve struct {
	yards   []float64
	values  []float64
	firstAt []int // by whole yards: the first row that far or farther
}

// at is the value at a distance in yards, the first and last segments carried
// on; NaN where there is no row or the distance is not known.
func (c *curve) at(yards float64) float64 {
	switch {
	case len(c.yards) == 0 || math.IsNaN(yards):
		return math.NaN()
	case len(c.yards) == 1:
		return c.values[0]
	}
	upper := c.rowAt(yards)
	if upper < len(c.yards) && c.yards[upper] == yards {
		return c.values[upper]
	}
	upper = min(max(upper, 1), len(c.yards)-1)
	x0, x1 := c.yards[upper-1], c.yards[upper]
	y0, y1 := c.values[upper-1], c.values[upper]
	return y0 + (yards-x0)/(x1-x0)*(y1-y0)
}

// rowAt is the first row at a distance or beyond.
func (c *curve) rowAt(yards float64) int {
	row := len(c.yards)
	if yards < float64(len(c.firstAt)) {
		row = c.firstAt[max(0, int(yards))]
	}
	for row < len(c.yards) && c.yards[row] < yards {
		row++
	}
	return row
}

// append adds a row farther than the others.
func (c *curve) append(yards, value float64) {
	for float64(len(c.firstAt)) <= yards {
		c.firstAt = append(c.firstAt, len(c.yards))
	}
	c.yards, c.values = append(c.yards, yards), append(c.values, value)
}

// add appends a row of a file. Published averages waver by up to five hundredths;
// a larger fall over a longer distance is a slip of the pen.
func (c *curve) add(yards, value float64, falls bool) error {
	const waver = 0.055 // a fall of 0.05 passes however it is rounded
	if n := len(c.yards); n > 0 {
		last := c.values[n-1]
		switch {
		case yards <= c.yards[n-1]:
			return fmt.Errorf("distances must rise from row to row")
		case !falls && value < last-waver:
			return fmt.Errorf("strokes fall from %v to %v as the distance grows", last, value)
		}
	}
	c.append(yards, value)
	return nil
}
