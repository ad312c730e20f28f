package metrics

import "testing"

func TestWarningsGiveDistancesInTheUnitsAskedFor(t *testing.T) {
	for _, c := range []struct {
		metres bool
		yards  []float64
		want   string
	}{
		{false, []float64{30}, "30 yd"},
		{false, []float64{100, 112.5}, "100-112.5 yd"},
		{true, []float64{30}, "27.4 m"},
		{true, []float64{210 / 0.9144, 230 / 0.9144}, "210-230 m"},
	} {
		options := Options{Metres: c.metres}
		if got := options.distance(c.yards...); got != c.want {
			t.Errorf("%v yd, metres %t: %q, want %q", c.yards, c.metres, got, c.want)
		}
	}
}
