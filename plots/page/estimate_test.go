package page

import (
	"testing"

	"roundmill/plots"
)

func TestStrokesGainedClaimNoMoreThanTheirInterval(t *testing.T) {
	for _, c := range []struct {
		name string
		e    estimate
		want string
	}{
		{"a loss", estimate{-1.68, -1.96, -1.4}, "Putts lose 1.7 strokes a round (90 % interval 1.4 to 2.0)."},
		{"one stroke", estimate{1.4, 0.6, 3.2}, "Putts gain 1 stroke a round (90 % interval 1 to 3)."},
		{"an end near zero", estimate{1.1, 0.1, 2.9}, "Putts gain 1.1 strokes a round (90 % interval 0.1 to 2.9)."},
		{"spans zero", estimate{-0.1, -0.3, 0.126}, "Putts: neither a loss nor a gain is shown, −0.1 strokes a round with a 90 % interval of −0.3 to +0.1."},
		{"touches zero", estimate{-0.4, -0.8, 0}, "Putts: neither a loss nor a gain is shown, −0.4 strokes a round with a 90 % interval of −0.8 to 0.0."},
		{"no interval", estimate{-2.34, unknown, unknown}, "Putts: −2.3 strokes a round as played; too few rounds to say more."},
		{"nothing", estimate{unknown, unknown, unknown}, "Putts: not known."},
	} {
		said(t, c.name, c.e.against("Putts", "lose", "gain", "a round"), c.want)
	}
}

func TestFiguresHaveTheDigitsOfTheirInterval(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{estimate{-0.054, -0.166, 0.054}.signedCell(), "−0.1\n(−0.2 to +0.1)"},
		{estimate{-0.129, -0.149, -0.109}.signedCell(), "−0.13\n(−0.15 to −0.11)"},
		{estimate{261.5, 259.8, 262.97}.yardCell(), "262\n(260 to 263)"},
		{estimate{241.5, unknown, unknown}.yardCell(), "242"},
		{estimate{66.5, unknown, unknown}.lengthCell(plots.Yards), "67"},
		{estimate{20.27, unknown, unknown}.lengthCell(plots.Metres), "20.3"},
		{estimate{0.9, 0.9, 0.9}.length(plots.Yards), "0.9"},
		{estimate{unknown, unknown, unknown}.cell(), "–"},
		{share{estimate{0.57, 0.538, 0.603}, 615}.cell(), "57 %\n(54 to 60 %)"},
		{share{estimate{3. / 7, 0.2, 0.7}, 7}.cell(), "3 of 7"},
		{share{estimate{unknown, unknown, unknown}, 0}.cell(), "–"},
		{share{estimate{0.5, unknown, unknown}, 20}.cell(), "50 %"},
		{byChance(1, "lies"), ""}, {byChance(6, "steps"), "; of 6 steps one may stand out by chance"}, {byChance(16, "distances"), "; of 16 distances two may stand out by chance"},
	} {
		said(t, "printed", c.got, c.want)
	}
}
