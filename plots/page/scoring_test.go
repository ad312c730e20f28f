package page

import (
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestScoringWords(t *testing.T) {
	said(t, "shares", scoringWords(metrics.Scoring{N: 826, UnderParShare: 0.122, UnderParLo: 0.1, UnderParHi: 0.14, DoubleOrWorseShare: 0.03, DoubleOrWorseLo: 0.02, DoubleOrWorseHi: 0.04}),
		"Of 826 complete holes, 12 % (10 to 14 %) were played under par and 3 % (2 to 4 %) in a double bogey or worse.")
	said(t, "few", scoringWords(metrics.Scoring{N: 1, UnderParLo: 0, UnderParHi: 0.7, DoubleOrWorseShare: 1}), "Of 1 complete hole, 0 of 1 were played under par and 1 of 1 in a double bogey or worse.")
	parts := func(e ...estimate) (all []part) {
		for i, gained := range e {
			all = append(all, part{name: []string{"Tee shots", "Approach play", "The short game", "Putting"}[i], gained: gained})
		}
		return all
	}
	loss, gain, open, few := estimate{-1, -2, -0.5}, estimate{1, 0.5, 2}, estimate{0, -1, 1}, estimate{-1, unknown, unknown}
	for _, c := range []struct {
		name  string
		parts []part
		want  string
	}{
		{"all kinds", parts(loss, loss, open, gain), "Against the benchmark strokes are lost in tee shots and approach play; strokes are gained in putting; in the short game neither a loss nor a gain is shown."},
		{"nothing shown", parts(open, open, open, open), "Against the benchmark no part of the game is shown to gain or to lose."},
		{"too few rounds", parts(few, few, few, few), ""},
	} {
		said(t, c.name, partsWords(c.parts), c.want)
	}
	bounce := func(n int64, difference, lo, hi float64) metrics.BounceBack {
		return metrics.BounceBack{N: n, OtherwiseN: 90, Share: 0.1, OtherwiseShare: 0.2, Difference: difference, DifferenceLo: lo, DifferenceHi: hi}
	}
	const both = "Straight after a hole over par 10 % of holes are under par, otherwise 20 %"
	said(t, "worse", bounceWords(bounce(90, -0.1, -0.2, -0.01)), both+": a hole over par is followed by worse ones.")
	said(t, "open", bounceWords(bounce(90, -0.1, -0.2, 0.01)), both+": no sign that one bad hole brings, or mends, the next.")
	said(t, "better", bounceWords(bounce(90, 0.1, 0.01, 0.2)), both+": a hole over par is followed by better ones.")
	said(t, "few", bounceWords(bounce(9, 0.1, 0.01, 0.2)), "")
	said(t, "no hole under par", bounceWords(metrics.BounceBack{N: 90, OtherwiseN: 90}), "")
	said(t, "length", scoringGroup(metrics.Scoring{GroupKind: metrics.ByLength, Group: "4, 350-400", LengthFromYd: 350, LengthToYd: 400}, plots.Metres), "Par 4 of 320–366 metres")
	said(t, "nine", scoringGroup(metrics.Scoring{GroupKind: metrics.ByNine, Group: "front"}, plots.Yards), "Front nine")
}
