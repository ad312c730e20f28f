package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// scale places values along a stretch of the canvas, in a straight line.
type scale struct {
	from, to   float64   // values at the ends
	start, end vg.Length // places of the ends
}

func (s scale) at(value float64) vg.Length {
	return s.start + vg.Length((value-s.from)/(s.to-s.from))*(s.end-s.start)
}

// valueOf is the value that a length on the canvas spans.
func (s scale) valueOf(length vg.Length) float64 {
	return float64(length) * (s.to - s.from) / math.Abs(float64(s.end-s.start))
}

// tickStep is the step of 1, 2 or 5 times a power of ten that divides a span
// into as many parts as it can without more than most.
func tickStep(span float64, most int) float64 {
	power := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, step := range []float64{1, 2, 5} {
		if span <= step*power*float64(most)*(1+1e-9) {
			return step * power
		}
	}
	return 10 * power
}

// ticks are the multiples of step inside the scale.
func (s scale) ticks(step float64) []float64 {
	var values []float64
	last := int(math.Floor(s.to/step + 1e-9))
	for i := int(math.Ceil(s.from/step - 1e-9)); i <= last; i++ {
		values = append(values, float64(i)*step)
	}
	return values
}

// tickPrinted is a tick with the decimals that its step needs, by Number or
// Signed; zero has none.
func tickPrinted(tick, step float64, print func(float64, int) string) string {
	if tick == 0 {
		return "0"
	}
	return print(tick, max(0, int(math.Ceil(-math.Log10(step)-1e-9))))
}
