package golfer_test

import (
	"iter"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"roundmill/testdata/demo/golfer"
)

// steady is the demo player without what comes and goes: form, improvement, mishits, duffs, the pull
// of a club's own distance, and the slopes of the greens. What is left are his plain spreads.
func steady() golfer.Player {
	player := golfer.Scratch()
	player.FormSpread, player.Improvement, player.MishitShare, player.StockPull, player.PitchLoss = 0, 0, 0, 0, 0
	for i := range player.Touch {
		player.Touch[i].DuffShare = 0
	}
	player.Putting.Uphill, player.Putting.Downhill, player.Putting.Breaking = 1, 1, 1
	return player
}

// calmAndFlat are the courses without wind and hills.
func calmAndFlat() []*golfer.Course {
	courses := golfer.Courses()
	for _, course := range courses {
		course.WindMph = 0
		for i := range course.Holes {
			course.Holes[i].ElevationYd = 0
		}
	}
	return courses
}

// errorsOf are a shot's errors seen from the ball: the angle to its line in degrees and the distance
// in per cent of that to the target.
func errorsOf(shot golfer.Shot) (lineDeg, distancePct float64) {
	toTarget := shot.ToHoleYd + shot.Aim.LongYd
	long, right := toTarget+shot.Miss.LongYd, shot.Aim.RightYd+shot.Miss.RightYd
	angle := math.Atan2(right, long) - math.Atan2(shot.Aim.RightYd, toTarget)
	return angle * 180 / math.Pi, 100 * (math.Hypot(long, right)/math.Hypot(toTarget, shot.Aim.RightYd) - 1)
}

// agrees fails unless a measured standard deviation is within four of its own standard errors,
// sd / sqrt(2 n) for a normal sample, of the true one.
func agrees(t *testing.T, what string, sample []float64, want float64) {
	t.Helper()
	if len(sample) < 300 {
		t.Errorf("%s: only %d shots", what, len(sample))
		return
	}
	got := stat.StdDev(sample, nil)
	if math.Abs(got-want) > 4*want/math.Sqrt(2*float64(len(sample))) {
		t.Errorf("%s: spread of %d shots is %.3f, want %.3f", what, len(sample), got, want)
	}
	if mean := stat.Mean(sample, nil); math.Abs(mean) > 4*want/math.Sqrt(float64(len(sample))) {
		t.Errorf("%s: mean of %d shots is %.3f, want 0", what, len(sample), mean)
	}
}

// fullSwings are the swings at a green or off a tee with a whole club in hand.
func fullSwings(player golfer.Player, shots iter.Seq[golfer.Shot]) iter.Seq2[golfer.Shot, golfer.Club] {
	clubs := map[string]golfer.Club{}
	for _, club := range player.Clubs {
		clubs[club.Name] = club
	}
	return func(yield func(golfer.Shot, golfer.Club) bool) {
		for shot := range shots {
			club := clubs[shot.Club]
			whole := shot.Club != player.Clubs[len(player.Clubs)-1].Name
			if (shot.Stroke == golfer.ToGreen || shot.Stroke == golfer.FromTee) && whole && !shot.Holed && !yield(shot, club) {
				return
			}
		}
	}
}

func TestDispersionOfEachClubIsThePlayersOwn(t *testing.T) {
	player := steady()
	line, distance := map[string][]float64{}, map[string][]float64{}
	for shot, club := range fullSwings(player, golfer.Season(1, player, calmAndFlat(), 2000)) {
		if shot.Lie != golfer.Tee && shot.Lie != golfer.Fairway {
			continue
		}
		lineDeg, distancePct := errorsOf(shot)
		line[club.Name] = append(line[club.Name], lineDeg)
		distance[club.Name] = append(distance[club.Name], distancePct)
	}
	for _, club := range player.Clubs[:len(player.Clubs)-1] {
		agrees(t, club.Name+" line in degrees", line[club.Name], club.LineDeg)
		agrees(t, club.Name+" distance in per cent", distance[club.Name], club.DistancePct)
	}
}

func TestALieWidensTheSpreadsByItsFactors(t *testing.T) {
	player := steady()
	line, distance := map[golfer.Lie][]float64{}, map[golfer.Lie][]float64{}
	for shot, club := range fullSwings(player, golfer.Season(2, player, calmAndFlat(), 2000)) {
		lineDeg, distancePct := errorsOf(shot)
		line[shot.Lie] = append(line[shot.Lie], lineDeg/club.LineDeg)
		distance[shot.Lie] = append(distance[shot.Lie], distancePct/club.DistancePct)
	}
	for _, lie := range []golfer.Lie{golfer.Tee, golfer.Fairway, golfer.FirstCut, golfer.Rough, golfer.DeepRough,
		golfer.Bermuda, golfer.Fescue, golfer.FairwayBunker} {
		agrees(t, lie.String()+" line", line[lie], player.Lies[lie].Line)
		agrees(t, lie.String()+" distance", distance[lie], player.Lies[lie].Distance)
	}
}

func TestTheShortGameHasTheTouchOfItsLie(t *testing.T) {
	player := steady()
	line, distance := map[golfer.Lie][]float64{}, map[golfer.Lie][]float64{}
	for shot := range golfer.Season(3, player, calmAndFlat(), 4000) {
		if shot.Stroke != golfer.ShortGame || shot.Holed || shot.ToHoleYd < 5 {
			continue
		}
		lineDeg, distancePct := errorsOf(shot)
		line[shot.Lie] = append(line[shot.Lie], lineDeg)
		distance[shot.Lie] = append(distance[shot.Lie], distancePct*shot.ToHoleYd/(shot.ToHoleYd+2))
	}
	// From the fringe and the nearest lies enough balls drop, the straight ones, to bend the spread
	// of those that do not: the others show the touch itself.
	for _, lie := range []golfer.Lie{golfer.DeepRough, golfer.Bermuda, golfer.Fescue, golfer.Bunker, golfer.Plugged} {
		agrees(t, lie.String()+" line", line[lie], player.Touch[lie].LineDeg)
		agrees(t, lie.String()+" distance", distance[lie], player.Touch[lie].DistancePct)
	}
}

// puttsMade are a player's putts by whole inches of distance: tried and made.
func puttsMade(shots iter.Seq[golfer.Shot]) map[int][2]float64 {
	putts := map[int][2]float64{}
	for shot := range shots {
		if shot.Stroke != golfer.Putt {
			continue
		}
		inches := int(math.Round(36 * shot.ToHoleYd))
		made := putts[inches]
		made[0]++
		if shot.Holed {
			made[1]++
		}
		putts[inches] = made
	}
	return putts
}

// chanceMade is the two-parameter geometry model: angle and distance, hole and ball as the rules
// make them, in Gelman (2019), "Model building and expansion for golf putting", after Broadie (2018).
func chanceMade(feet, lineDeg, pacePct float64) float64 {
	const radiusFt, ballFt = 2.125 / 12, 0.84 / 12
	line, pace := lineDeg*math.Pi/180, pacePct/100*(feet+1)
	phi := distuv.UnitNormal.CDF
	return (2*phi(math.Asin((radiusFt-ballFt)/feet)/line) - 1) * (phi(2/pace) - phi(-1/pace))
}

func logLikelihood(putts map[int][2]float64, lineDeg, pacePct float64) float64 {
	sum := 0.0
	for inches := 1; inches <= 200*12; inches++ {
		tried := putts[inches]
		if tried[0] == 0 || inches < 24 {
			continue // rounding to the inch matters there, and all but all are made
		}
		p := math.Min(math.Max(chanceMade(float64(inches)/12, lineDeg, pacePct), 1e-12), 1-1e-12)
		sum += tried[1]*math.Log(p) + (tried[0]-tried[1])*math.Log1p(-p)
	}
	return sum
}

// mostLikely climbs to the maximum of the likelihood by steps that halve whenever none of the four
// neighbours is better.
func mostLikely(putts map[int][2]float64) (lineDeg, pacePct, best float64) {
	lineDeg, pacePct = 2, 15
	best = logLikelihood(putts, lineDeg, pacePct)
	for step := 0.25; step > 1e-5; step /= 2 {
		for climbed := true; climbed; {
			climbed = false
			for _, factor := range [][2]float64{{1 + step, 1}, {1 / (1 + step), 1}, {1, 1 + step}, {1, 1 / (1 + step)}} {
				line, pace := lineDeg*factor[0], pacePct*factor[1]
				if value := logLikelihood(putts, line, pace); value > best {
					lineDeg, pacePct, best, climbed = line, pace, value, true
				}
			}
		}
	}
	return lineDeg, pacePct, best
}

func TestPuttingErrorsAreRecoveredByMaximumLikelihood(t *testing.T) {
	player := steady()
	putts := puttsMade(golfer.Season(4, player, golfer.Courses(), 2000))
	lineDeg, pacePct, best := mostLikely(putts)
	trueLine, truePace := player.Putting.LineDeg, player.Putting.PacePct
	t.Logf("line %.4f degrees, pace %.3f %%; truth %g and %g", lineDeg, pacePct, trueLine, truePace)
	if math.Abs(lineDeg/trueLine-1) > 0.03 || math.Abs(pacePct/truePace-1) > 0.05 {
		t.Errorf("line %.3f degrees and pace %.2f %%, want %g and %g", lineDeg, pacePct, trueLine, truePace)
	}
	// Wilks: twice the gain over the truth is chi-squared with two degrees of freedom.
	ratio := func(lineDeg, pacePct float64) float64 { return 2 * (best - logLikelihood(putts, lineDeg, pacePct)) }
	critical := distuv.ChiSquared{K: 2}.Quantile(0.999)
	if got := ratio(trueLine, truePace); got > critical {
		t.Errorf("the truth is rejected: likelihood ratio %.1f over %.1f", got, critical)
	}
	if ratio(1.1*trueLine, truePace) < critical || ratio(trueLine, 1.2*truePace) < critical {
		t.Error("the data would not tell a wrong parameter from the true one")
	}
}

func TestUphillPuttsAreEasierThanDownhillAndStraightOnesThanBreaking(t *testing.T) {
	made := map[string][2]float64{}
	for shot := range golfer.Season(5, golfer.Scratch(), golfer.Courses(), 2000) {
		if feet := 3 * shot.ToHoleYd; shot.Stroke != golfer.Putt || feet < 5 || feet > 10 {
			continue
		}
		kind := "straight"
		if shot.Putting.Break != "straight" {
			kind = "breaking"
		}
		for _, key := range []string{shot.Putting.Slope, kind} {
			count := made[key]
			count[0]++
			if shot.Holed {
				count[1]++
			}
			made[key] = count
		}
	}
	share := func(key string) float64 { return made[key][1] / made[key][0] }
	if !(share("uphill") > share("level") && share("level") > share("downhill")) {
		t.Errorf("uphill %.3f, level %.3f, downhill %.3f", share("uphill"), share("level"), share("downhill"))
	}
	if share("straight") <= share("breaking") {
		t.Errorf("straight %.3f, breaking %.3f", share("straight"), share("breaking"))
	}
}

func TestWindAndSlopeMoveTheBallByThePlayersOwnEffects(t *testing.T) {
	player := steady()
	var along, across []float64
	for shot, club := range fullSwings(player, golfer.Season(6, player, golfer.Courses(), 2000)) {
		if shot.Lie != golfer.Tee || shot.Stroke != golfer.ToGreen {
			continue
		}
		target := math.Hypot(shot.ToHoleYd+shot.Aim.LongYd, shot.Aim.RightYd)
		// What he plans with: the rule of thumb. What the ball does: his own effects.
		rule, effect := 0.01, player.Weather.IntoPct/100
		if shot.Wind.HeadMph < 0 {
			rule, effect = 0.005, player.Weather.DownPct/100
		}
		strike := target*(1+rule*shot.Wind.HeadMph) + shot.RiseYd
		want := (strike - player.Weather.RiseYd*shot.RiseYd) / (1 + effect*shot.Wind.HeadMph)
		spread := strike * club.DistancePct / 100 / (1 + effect*shot.Wind.HeadMph)
		lineDeg, distancePct := errorsOf(shot)
		drift := player.Weather.DriftPct / 100 * (1 - player.Weather.DriftAllowed) * shot.Wind.CrossMph
		along = append(along, (target*(1+distancePct/100)-want)/spread)
		across = append(across, (lineDeg-drift*180/math.Pi)/club.LineDeg)
	}
	agrees(t, "along the wind", along, 1)
	agrees(t, "across the wind", across, 1)
}

func TestImprovementNarrowsTheSpreadsOverASeason(t *testing.T) {
	player := steady()
	player.Improvement = 0.2
	var first, last []float64
	for seed := range uint64(200) {
		for shot, club := range fullSwings(player, golfer.Season(seed, player, calmAndFlat()[:1], golfer.SeasonRounds)) {
			lineDeg, _ := errorsOf(shot)
			z := lineDeg / club.LineDeg / player.Lies[shot.Lie].Line
			switch shot.Round.Number {
			case 1:
				first = append(first, z)
			case golfer.SeasonRounds:
				last = append(last, z)
			}
		}
	}
	agrees(t, "first round", first, 1)
	agrees(t, "last round", last, 0.8)
}
