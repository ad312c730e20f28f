package golfer_test

import (
	"maps"
	"slices"
	"testing"

	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
)

// A share counts how often something came off.
type share struct{ tried, done float64 }

func (s *share) count(done bool) {
	s.tried++
	if done {
		s.done++
	}
}

func (s *share) of() float64 { return s.done / s.tried }

// figures are what a season looks like, counted from its log with the definitions of the trade.
// Holes picked up count for penalties alone.
type figures struct {
	rounds, toPar, putts, threePutts, birdies, doubles, penalties, pickedUp float64
	greens, fairways                                                        share
	upAndDown                                                               map[string]*share // by "course/lie"
	proximityFt                                                             map[string][]float64
}

func figuresOf(t *testing.T, holes [][]row) *figures {
	t.Helper()
	f := &figures{upAndDown: map[string]*share{}, proximityFt: map[string][]float64{}}
	complete := 0.0
	for _, hole := range holes {
		f.rounds += 1.0 / 18
		for _, shot := range hole {
			if shot["penalty"] != "" {
				f.penalties++
			}
		}
		if hole[len(hole)-1]["holed"] == "no" {
			f.pickedUp++
			continue
		}
		complete += 1.0 / 18
		f.addHole(t, hole)
	}
	for _, total := range []*float64{&f.toPar, &f.putts, &f.threePutts, &f.birdies} {
		*total /= complete
	}
	f.penalties /= f.rounds
	return f
}

func (f *figures) addHole(t *testing.T, hole []row) {
	t.Helper()
	par := hole[0].number(t, "par")
	score, putts, onGreen := 0.0, 0.0, false
	for i, shot := range hole {
		score++
		if shot["penalty"] != "" {
			score++
		}
		if shot["lie"] == "green" {
			putts++
		}
		onGreen = onGreen || (shot["finish_lie"] == "green" || shot["holed"] == "yes") && score <= par-2
		if i == 0 && par > 3 {
			f.fairways.count(shot["finish_lie"] == "fairway" || shot["finish_lie"] == "green")
		}
		f.addApproach(t, shot)
	}
	f.greens.count(onGreen)
	f.putts += putts
	f.toPar += score - par
	if putts >= 3 {
		f.threePutts++
	}
	if score < par {
		f.birdies++
	}
	if score >= par+2 {
		f.doubles++
	}
	f.addUpAndDown(t, hole)
}

// addUpAndDown counts two strokes or fewer, penalties among them, from the first short-game stroke.
func (f *figures) addUpAndDown(t *testing.T, hole []row) {
	t.Helper()
	for i, shot := range hole {
		if shot["lie"] == "green" || shot["lie"] == "tee" || shot.yards(t, "to_hole", "lie") > golfer.ShortGameYd {
			continue
		}
		strokes := len(hole) - i
		for _, later := range hole[i:] {
			if later["penalty"] != "" {
				strokes++
			}
		}
		key := shot["course"] + "/" + shot["lie"]
		if f.upAndDown[key] == nil {
			f.upAndDown[key] = &share{}
		}
		f.upAndDown[key].count(strokes <= 2)
		return
	}
}

// addApproach keeps how far from the hole the approaches of two bands came to rest.
func (f *figures) addApproach(t *testing.T, shot row) {
	t.Helper()
	toHole := shot.yards(t, "to_hole", "lie")
	if shot["penalty"] != "" || shot["intent"] == "lay up" || shot["intent"] == "get out" || shot["lie"] == "green" {
		return
	}
	band := ""
	switch {
	case toHole >= 100 && toHole < 125:
		band = "100 to 125 yd"
	case toHole >= 150 && toHole < 175:
		band = "150 to 175 yd"
	default:
		return
	}
	lie := shot["lie"]
	if lie == "tee" {
		lie = "fairway"
	}
	key := band + ", " + lie
	f.proximityFt[key] = append(f.proximityFt[key], 3*shot.yards(t, "left", "finish_lie"))
}

func (f *figures) upAndDownOn(keep func(course, lie string) bool) *share {
	total := &share{}
	for _, key := range slices.Sorted(maps.Keys(f.upAndDown)) {
		at := slices.Index([]byte(key), '/')
		if keep(key[:at], key[at+1:]) {
			total.tried += f.upAndDown[key].tried
			total.done += f.upAndDown[key].done
		}
	}
	return total
}

func (f *figures) medianFt(key string) float64 {
	feet := slices.Sorted(slices.Values(f.proximityFt[key]))
	return feet[len(feet)/2]
}

// within fails unless a figure lies in a range.
func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	t.Logf("%s: %.3f", what, got)
	if got < low || got > high {
		t.Errorf("%s is %.3f, want %g to %g", what, got, low, high)
	}
}

// The ranges are common practice: what a player of about scratch brings home.
func TestTheDemoSeasonLooksLikeAPersonOfAboutScratch(t *testing.T) {
	f := figuresOf(t, holesOf(t, demo.CSV))
	within(t, "rounds", f.rounds, 45.99, 46.01)
	within(t, "strokes over par a round", f.toPar, 1.5, 3.0)
	within(t, "doubles or worse in the season", f.doubles, 15, 35)
	within(t, "holes picked up", f.pickedUp, 1, 2)
	within(t, "birdies or better a round", f.birdies, 1.5, 3)
	within(t, "greens in regulation", f.greens.of(), 0.55, 0.62)
	within(t, "fairways hit", f.fairways.of(), 0.55, 0.62)
	within(t, "putts a round", f.putts, 29, 31.5)
	within(t, "three-putts a round", f.threePutts, 0.6, 1.2)
	within(t, "penalties a round", f.penalties, 0.5, 0.9)
}

// Common practice: seven in ten where a player knows the grass, three in ten where he does not;
// from sand between.
func TestUpAndDownGoesByTheGrass(t *testing.T) {
	home := golfer.Courses()[0].Name
	demoSeason := figuresOf(t, holesOf(t, demo.CSV))
	known := demoSeason.upAndDownOn(func(course, lie string) bool {
		return course == home && (lie == "rough" || lie == "fringe")
	})
	within(t, "up and down on the grass of the home course", known.of(), 0.6, 0.8)
	within(t, "up and down from sand", demoSeason.upAndDownOn(func(_, lie string) bool { return lie == "bunker" }).of(), 0.35, 0.5)

	// The strange lies come up too seldom in one season: they are counted over forty.
	player := golfer.Scratch()
	many := figuresOf(t, holesOf(t, written(t, golfer.Season(1, player, golfer.Courses(), 40*golfer.SeasonRounds))))
	for _, strange := range []string{"bermuda", "plugged"} {
		got := many.upAndDownOn(func(_, lie string) bool { return lie == strange })
		within(t, "up and down, "+strange, got.of(), 0.2, 0.4)
	}
}

func TestApproachesEndFartherFromTheHoleFromFartherOutAndFromRough(t *testing.T) {
	f := figuresOf(t, holesOf(t, demo.CSV))
	near, far := f.medianFt("100 to 125 yd, fairway"), f.medianFt("150 to 175 yd, fairway")
	within(t, "median feet from 100 to 125 yd", near, 22, 26)
	within(t, "median feet from 150 to 175 yd", far, 35, 42)
	if rough := f.medianFt("150 to 175 yd, rough"); rough <= far {
		t.Errorf("%.1f ft from the rough, %.1f from the fairway", rough, far)
	}
}

func TestOtherSeasonsOfThePlayerAreLikeIt(t *testing.T) {
	var f [20]*figures
	toPar, greens := 0.0, 0.0
	for seed := range f {
		shots := golfer.Season(uint64(seed), golfer.Scratch(), golfer.Courses(), golfer.SeasonRounds)
		f[seed] = figuresOf(t, holesOf(t, written(t, shots)))
		toPar += f[seed].toPar / float64(len(f))
		greens += f[seed].greens.of() / float64(len(f))
	}
	within(t, "strokes over par a round, mean of twenty seasons", toPar, 2, 3.2)
	within(t, "greens in regulation, mean of twenty seasons", greens, 0.55, 0.63)
}
