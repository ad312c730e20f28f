package plots

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"roundmill/ingest"
	"roundmill/metrics"
)

// The rows of these tests are invented: a seeded player hits seeded shots, and
// the figures are counted from them as the README defines them.

var inventedSeason = Season{
	Player:       "Alex Sample",
	From:         time.Date(2026, 4, 4, 0, 0, 0, 0, time.UTC),
	To:           time.Date(2026, 10, 25, 0, 0, 0, 0, time.UTC),
	Rounds:       46,
	Shots:        73 * 46,
	Baseline:     "men's professional tour",
	BaselineNote: "an invented note on where the table comes from.",
	Units:        Yards,
	Invented:     true,
}

type inventedShot struct {
	lie        string
	finishFt   float64
	penalty    bool
	onTheGreen bool
}

// bandEdges are the edges of the usual yardage bands, in yards.
func bandEdges(units Units) []float64 {
	var edges []float64
	if units == Metres {
		for m := 50.0; m <= 230; m += 20 {
			edges = append(edges, m/ingest.MetresPerYard)
		}
		return edges
	}
	for yd := 50.0; yd <= 250; yd += 25 {
		edges = append(edges, yd)
	}
	return edges
}

// inventedApproaches are the approach rows of a season of so many rounds,
// thirteen approaches each. roughFactor is how much wider the rough scatters.
func inventedApproaches(seed uint64, rounds int, edges []float64, roughFactor float64) []metrics.ApproachProximity {
	random := rand.New(rand.NewPCG(seed, 2))
	bands := make([][]inventedShot, len(edges)-1)
	for range 13 * rounds {
		fromYd := 145 + 45*random.NormFloat64()
		band := slices.IndexFunc(edges, func(edge float64) bool { return fromYd < edge }) - 1
		if band < 0 {
			continue
		}
		shot := inventedShot{lie: "fairway", penalty: random.Float64() < 0.015}
		scatter := 1.0
		switch lie := random.Float64(); {
		case lie < 0.06:
			shot.lie, scatter = "sand", 1.8
		case lie < 0.36:
			shot.lie, scatter = "rough", roughFactor
		}
		if random.Float64() < 0.08 {
			scatter *= 2.5
		}
		long := scatter * 0.052 * fromYd * random.NormFloat64()
		right := scatter * 0.048 * fromYd * random.NormFloat64()
		shot.finishFt = math.Round(30*math.Hypot(long, right)) / 10
		shot.onTheGreen = !shot.penalty && math.Hypot(long/15, right/12.5) < 1
		bands[band] = append(bands[band], shot)
	}
	var rows []metrics.ApproachProximity
	for i, shots := range bands {
		for _, lie := range []string{"all", "fairway", "rough", "sand"} {
			rows = append(rows, approachRowOf(shots, lie, edges[i], edges[i+1]))
		}
	}
	return rows
}

func approachRowOf(shots []inventedShot, lie string, fromYd, toYd float64) metrics.ApproachProximity {
	row := metrics.ApproachProximity{Player: inventedSeason.Player, LieGroup: lie, BandFromYd: fromYd, BandToYd: toYd}
	green := 0.0
	for _, shot := range shots {
		if lie != "all" && shot.lie != lie {
			continue
		}
		row.N++
		switch {
		case shot.penalty:
			row.NPenalty++
		case shot.onTheGreen:
			green++
			fallthrough
		default:
			row.FinishesFt = append(row.FinishesFt, shot.finishFt)
		}
	}
	slices.Sort(row.FinishesFt)
	row.GreenShare = green / float64(row.N)
	row.P25Ft, row.MedianFt, row.P75Ft = quantile(row.FinishesFt, 0.25), quantile(row.FinishesFt, 0.5), quantile(row.FinishesFt, 0.75)
	row.MedianLoFt, row.MedianHiFt = medianInterval(row.FinishesFt)
	return row
}

// quantile is definition 7 of Hyndman and Fan (1996).
func quantile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	at := p * float64(len(sorted)-1)
	lower := int(at)
	upper := min(lower+1, len(sorted)-1)
	return sorted[lower] + (at-float64(lower))*(sorted[upper]-sorted[lower])
}

// medianInterval is the 90 % interval of order statistics by the normal
// approximation of the binomial, good enough for a picture.
func medianInterval(sorted []float64) (lo, hi float64) {
	n := float64(len(sorted))
	half := 1.645 * math.Sqrt(n) / 2
	first, last := int(math.Floor(n/2-half)), int(math.Ceil(n/2+half))-1
	if first < 0 || last >= len(sorted) || n < 6 {
		return math.NaN(), math.NaN()
	}
	return sorted[first], sorted[last]
}

// gains are invented figures of one part of the game.
type gains struct {
	kind, group          string
	n                    int64
	perRound, standardSd float64 // strokes a round, and its spread from round to round
}

var inventedGains = []gains{
	{"class", "tee shot", 14, -0.31, 1.5},
	{"class", "approach", 18, -2.02, 1.9},
	{"class", "short game", 9, -0.58, 1.4},
	{"class", "putt", 32, 0.12, 1.7},
	{"total", "all", 73, -2.79, 3.2},
	{"lie", "rough", 11, -0.9, 1.2},
}

// inventedStrokesGained are strokes gained rows of so many rounds; the
// intervals are those of a mean.
func inventedStrokesGained(rounds int, of []gains) []metrics.StrokesGained {
	var rows []metrics.StrokesGained
	for _, g := range of {
		half := 1.645 * g.standardSd / math.Sqrt(float64(rounds))
		if rounds < fewestRounds {
			half = math.NaN()
		}
		rows = append(rows, metrics.StrokesGained{
			Player: inventedSeason.Player, GroupKind: g.kind, Group: g.group,
			Rounds: int64(rounds), N: g.n * int64(rounds),
			PerRound: g.perRound, PerRoundLo: g.perRound - half, PerRoundHi: g.perRound + half,
		})
	}
	return rows
}
