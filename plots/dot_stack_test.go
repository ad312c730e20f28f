package plots

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

func TestEveryFinishOnTheScaleIsOneDotNearItsPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		axis := scale{from: 0, to: 100, start: 300, end: 100}
		values := rapid.SliceOf(rapid.Float64Range(0, 150)).Draw(t, "values")
		slices.Sort(values)
		diameter := rapid.SampledFrom(dotDiameters).Draw(t, "diameter")
		stack := stacked(values, axis, diameter)
		i := 0
		for j, place := range stack.places {
			if j > 0 && place <= stack.places[j-1] {
				t.Fatalf("stacks stand at %v", stack.places)
			}
			for range stack.heights[j] {
				if moved := math.Abs(float64(axis.at(place) - axis.at(values[i]))); moved > float64(diameter)/2+1e-9 {
					t.Fatalf("%v was moved by %v pt, more than half of %v", values[i], moved, diameter)
				}
				i++
			}
		}
		if i+beyond(values, axis.to) != len(values) {
			t.Fatalf("%d dots and %d beyond of %d values", i, beyond(values, axis.to), len(values))
		}
	})
}

func TestAHoledShotStandsAtZero(t *testing.T) {
	axis := scale{from: 0, to: 100, start: 300, end: 100}
	if stack := stacked([]float64{0, 0}, axis, 3); len(stack.places) != 1 || stack.places[0] != 0 || stack.heights[0] != 2 {
		t.Errorf("got %+v", stack)
	}
}

func TestDotsShrinkUntilTheStacksFit(t *testing.T) {
	axis := scale{from: 0, to: 100, start: 300, end: 100}
	room := vg.Length(16)
	few := []float64{10, 20, 30}
	same := make([]float64, 6)
	if got := dotDiameter([][]float64{few}, axis, 4*dotDiameters[0]); got != dotDiameters[0] {
		t.Errorf("dots that have room are %v pt, want %v", got, dotDiameters[0])
	}
	if got := dotDiameter([][]float64{few}, axis, room); got > room/4 {
		t.Errorf("dots are %v pt in a room of %v", got, room)
	}
	got := dotDiameter([][]float64{few, same}, axis, room)
	if step := stacked(same, axis, got).step(got, room); step < 0.8*got {
		t.Errorf("dots of %v pt stand %v pt apart", got, step)
	}
	if smallest := dotDiameters[len(dotDiameters)-1]; dotDiameter([][]float64{make([]float64, 20)}, axis, room) != smallest {
		t.Errorf("a stack that never fits is drawn with dots of more than %v pt", smallest)
	}
}

func TestTooManyDotsBecomeAHill(t *testing.T) {
	axis := scale{from: 0, to: 100, start: 300, end: 100}
	spreadOut := make([]float64, mostDots+1)
	for i := range spreadOut {
		spreadOut[i] = 100 * float64(i) / mostDots
	}
	if !tooManyForDots(spreadOut, axis, 100) {
		t.Errorf("%d finishes are drawn as dots", len(spreadOut))
	}
	if tooManyForDots(spreadOut[:mostDots], axis, 100) {
		t.Errorf("%d finishes with room are not drawn as dots", mostDots)
	}
	if !tooManyForDots(make([]float64, 50), axis, 16) {
		t.Error("a pile of 50 in 16 pt is drawn as dots")
	}
}

// The estimate written out without bins: Silverman (1986), Density Estimation
// for Statistics and Data Analysis, equations 2.2a and 3.31, reflected at zero
// as in section 2.10.
func TestTheHillIsTheKernelEstimate(t *testing.T) {
	values := make([]float64, 400)
	for i := range values {
		values[i] = 45 * math.Sqrt(-math.Log(1-(float64(i)+0.5)/400)) // Rayleigh quantiles: holes missed in two directions
	}
	const to = 120.0
	n := float64(len(values))
	bandwidth := 0.9 * spread(values) * math.Pow(n, -0.2)
	area := 0.0
	for i, got := range smoothed(values, to) {
		x := float64(i) * to / densitySteps
		want := 0.0
		for _, v := range values {
			for _, z := range []float64{(x - v) / bandwidth, (x + v) / bandwidth} {
				want += math.Exp(-z*z/2) / (n * bandwidth * math.Sqrt(2*math.Pi))
			}
		}
		if v := values[len(values)-1]; v > to {
			t.Fatalf("the test needs all values on the scale, %v is not", v)
		}
		if math.Abs(got-want) > 0.01*0.02 {
			t.Errorf("at %v the density is %v, want %v", x, got, want)
		}
		area += got * to / densitySteps
	}
	if math.Abs(area-1) > 0.02 {
		t.Errorf("the hill's area is %v, want 1", area)
	}
}

func TestValuesAllAtOnePlaceMakeANarrowHill(t *testing.T) {
	hill := smoothed([]float64{30, 30, 30}, 60)
	if peak := slices.Index(hill, slices.Max(hill)); peak != densitySteps/2 || math.IsNaN(hill[0]) {
		t.Errorf("the peak is at step %d, want %d", peak, densitySteps/2)
	}
}
